import { hexBytes } from '../../description/reader.ts';
import type { FieldRole, FieldType, FrameLayout } from '../../description.ts';
import { checksumOf, storedChecksum } from '../checksum/checksum.ts';
import type { Run } from '../run.ts';
import { readField } from './field.ts';
import { bytesOfType, checksumBytes, frameLength } from './frame-length.ts';

/** A field at its place: `at` counts from the start of the frame, or of the sample. */
export interface PlacedField {
  readonly role: FieldRole;
  readonly type: FieldType;
  readonly at: number;
  /** Index of its channel; -1 when it is none. */
  readonly channel: number;
}

/** A frame layout worked out once: where everything stands. */
export interface FramePlan {
  readonly length: number;
  readonly sync: Uint8Array;
  readonly head: readonly PlacedField[];
  readonly sample: readonly PlacedField[];
  readonly sampleStart: number;
  readonly sampleLength: number;
  readonly samples: number;
  readonly little: boolean;
  readonly channels: number;
  readonly checksum: FrameLayout['checksum'];
  readonly checksumAt: number;
  /** Each sample has a counter of its own, so each is a run of its own. */
  readonly counted: boolean;
}

export function framePlan(layout: FrameLayout, channels: readonly string[]): FramePlan {
  const sync = hexBytes(layout.sync) as Uint8Array;
  const place = (fields: FrameLayout['head'], start: number): PlacedField[] => {
    let at = start;
    return fields.map((role) => {
      const placed = {
        role,
        type: role.type,
        at,
        channel: role.role === 'channel' ? channels.indexOf(role.channel) : -1,
      };
      at += bytesOfType[role.type];
      return placed;
    });
  };
  const head = place(layout.head, sync.length);
  const sample = place(layout.sample, 0);
  const length = frameLength(layout);
  const checksumAt = length - checksumBytes[layout.checksum.kind];
  const sampleLength = sample.reduce((sum, { type }) => sum + bytesOfType[type], 0);
  return {
    length,
    sync,
    head,
    sample,
    sampleStart: checksumAt - sampleLength * layout.samples,
    sampleLength,
    samples: layout.samples,
    little: layout.endian === 'little',
    channels: channels.length,
    checksum: layout.checksum,
    checksumAt,
    counted: sample.some(({ role }) => role.role === 'counter'),
  };
}

/** Whether a frame's checksum is right; always true where there is none. */
export function checkOf(plan: FramePlan): (bytes: Uint8Array, at: number) => boolean {
  const sum = checksumOf(plan.checksum);
  if (sum === undefined) return () => true;
  const from = 'withSync' in plan.checksum && plan.checksum.withSync ? 0 : plan.sync.length;
  return (bytes, at) =>
    sum(bytes, at + from, at + plan.checksumAt) === storedChecksum(bytes, at + plan.checksumAt, plan.checksum);
}

/**
 * The runs of one frame: one for the frame, or one a sample where samples are counted singly. A value that is no number
 * (floating-point types can hold such) makes the frame unreadable: undefined.
 */
export function runsOf(plan: FramePlan, view: DataView, at: number): Run[] | undefined {
  const common: { counter?: number; time?: number } = {};
  const fixed = new Map<number, number>();
  for (const field of plan.head) {
    const value = readField(view, at + field.at, field.type, plan.little);
    if (field.channel >= 0) fixed.set(field.channel, value);
    else if (field.role.role === 'counter') common.counter = value;
    else if (field.role.role === 'time') common.time = value;
  }
  const values = new Float64Array(plan.samples * plan.channels);
  const counters: number[] = [];
  for (let i = 0; i < plan.samples; i++) {
    const start = at + plan.sampleStart + i * plan.sampleLength;
    for (const [channel, value] of fixed) values[i * plan.channels + channel] = value;
    for (const field of plan.sample) {
      if (field.role.role === 'ignore') continue;
      const value = readField(view, start + field.at, field.type, plan.little);
      if (field.channel >= 0) values[i * plan.channels + field.channel] = value;
      else if (field.role.role === 'counter') counters.push(value);
      else if (i === 0) common.time = value;
    }
  }
  if (!Number.isFinite(common.time ?? 0)) return undefined;
  for (const value of values) if (!Number.isFinite(value)) return undefined;
  if (!plan.counted) return [{ ...common, count: plan.samples, values }];
  return counters.map((counter, i) => ({
    ...(i === 0 ? common : {}),
    counter,
    count: 1,
    values: values.slice(i * plan.channels, (i + 1) * plan.channels),
  }));
}
