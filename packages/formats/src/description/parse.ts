import type { SampleSpan } from '@sthene/core';
import {
  type Check,
  count,
  finite,
  listOf,
  numbers,
  object,
  oneOf,
  optional,
  positive,
  text,
  texts,
  Unfit,
  yesNo,
} from './check.ts';
import {
  type ChannelDescription,
  descriptionFormat,
  type PlatformDescription,
  type RecordingDescription,
} from './description.ts';
import { storages } from './storage.ts';

const channel: Check<ChannelDescription> = (value, path) => {
  const from = object(value, path);
  const range = optional(from, 'rawRange', numbers(2), path).rawRange;
  return {
    name: text(from.name, `${path}.name`),
    unit: text(from.unit, `${path}.unit`),
    scale: finite(from.scale, `${path}.scale`),
    offset: finite(from.offset, `${path}.offset`),
    storage: oneOf(storages)(from.storage, `${path}.storage`),
    ...(range === undefined ? {} : { rawRange: [range[0] as number, range[1] as number] as const }),
  };
};

const triple: Check<readonly [number, number, number]> = (value, path) =>
  numbers(3)(value, path) as [number, number, number];

const platform: Check<PlatformDescription> = (value, path) => {
  const from = object(value, path);
  return {
    name: text(from.name, `${path}.name`),
    type: finite(from.type, `${path}.type`),
    channels: listOf(count)(from.channels, `${path}.channels`),
    pressSign: oneOf([1, -1] as const)(from.pressSign, `${path}.pressSign`),
    hasForce: yesNo(from.hasForce, `${path}.hasForce`),
    ...optional(from, 'corners', listOf(triple), path),
    ...optional(from, 'origin', triple, path),
    ...optional(from, 'calibration', listOf(listOf(finite)), path),
    ...optional(from, 'lengthUnit', text, path),
    ...optional(from, 'baselines', listOf(finite), path),
  };
};

/** Gaps: sorted, disjoint, not empty, on the grid. */
function gaps(value: unknown, path: string, sampleCount: number): SampleSpan[] {
  let last = 0;
  return listOf((entry, at) => {
    const from = object(entry, at);
    const span = { start: count(from.start, `${at}.start`), end: count(from.end, `${at}.end`) };
    if (span.start < last || span.end <= span.start || span.end > sampleCount) throw new Unfit(at, 'gaps in order');
    last = span.end;
    return span;
  })(value, path);
}

const utc: Check<string> = (value, path) => {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(text(value, path))) throw new Unfit(path, 'a UTC instant');
  return value as string;
};

/** The description, or where it breaks its own rules. */
export type ParsedDescription =
  | { readonly ok: true; readonly description: RecordingDescription }
  | { readonly ok: false; readonly path: string; readonly expected: string };

/** Checks plain data (parsed JSON) against the description's rules; nothing unchecked passes. */
export function parseDescription(value: unknown): ParsedDescription {
  try {
    const from = object(value, 'recording');
    oneOf([descriptionFormat])(from.format as typeof descriptionFormat, 'format');
    const sampleCount = count(from.sampleCount, 'sampleCount');
    const channels = listOf(channel)(from.channels, 'channels');
    if (new Set(channels.map((c) => c.name)).size < channels.length) throw new Unfit('channels', 'names that differ');
    const platforms = listOf(platform)(from.platforms, 'platforms');
    platforms.forEach((p, i) => {
      if (p.channels.some((c) => c >= channels.length)) throw new Unfit(`platforms[${i}].channels`, 'known channels');
    });
    const description: RecordingDescription = {
      format: descriptionFormat,
      sampleRate: positive(from.sampleRate, 'sampleRate'),
      rateOrigin: oneOf(['declared', 'time-column', 'time-column-snapped', 'given'] as const)(
        from.rateOrigin,
        'rateOrigin',
      ),
      ...optional(from, 'measuredRate', positive, 'recording'),
      sampleCount,
      channels,
      platforms,
      gaps: gaps(from.gaps, 'gaps', sampleCount),
      events: listOf((entry, path) => {
        const event = object(entry, path);
        return { label: text(event.label, `${path}.label`), time: finite(event.time, `${path}.time`) };
      })(from.events, 'events'),
      ...optional(from, 'recordedAt', utc, 'recording'),
      facts: texts(from.facts, 'facts'),
      notices: listOf((entry, path) => {
        const notice = object(entry, path);
        return { code: text(notice.code, `${path}.code`), message: text(notice.message, `${path}.message`) };
      })(from.notices, 'notices'),
    };
    return { ok: true, description };
  } catch (error) {
    if (error instanceof Unfit) return { ok: false, path: error.path, expected: error.expected };
    throw error;
  }
}

/** The same from JSON text; text that is no JSON is reported at the path `json`. */
export function parseDescriptionJson(json: string): ParsedDescription {
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch {
    return { ok: false, path: 'json', expected: 'valid JSON' };
  }
  return parseDescription(value);
}
