import {
  conversionFactor,
  type ForceSelection,
  type Forces,
  forcesOf,
  joinSpans,
  type Outcome,
  type PlateForce,
  type Recording,
  type SampleSpan,
} from '@sthene/core';
import type { StreamChannel } from '../../packets/packet.ts';

/** Raw force channels over one span, as kept live or as read back from a journal. */
export interface RecordedSpan {
  readonly sampleRate: number;
  /** Channels that enter the analysis, in the order of the stream. */
  readonly channels: readonly StreamChannel[];
  /** Raw values of each; a missing sample is NaN. */
  readonly raw: readonly Float64Array[];
}

/** The recording of a span: raw values with their calibration as recorded steps, missing samples listed. */
export function recordingOfSpan({ sampleRate, channels, raw }: RecordedSpan): Recording {
  const gaps: SampleSpan[] = [];
  for (const values of raw) {
    for (let i = 0; i < values.length; i++) {
      if (!Number.isNaN(values[i])) continue;
      const start = i;
      while (i < values.length && Number.isNaN(values[i])) i++;
      gaps.push({ start, end: i });
    }
  }
  return {
    sampleRate,
    rateOrigin: 'given',
    sampleCount: raw[0]?.length ?? 0,
    channels: channels.map(({ name, unit, scale, offset, rawRange }, at) => ({
      name,
      unit,
      raw: raw[at] as Float64Array,
      scale,
      offset,
      ...(rawRange === undefined ? {} : { rawRange }),
    })),
    platforms: [],
    gaps: joinSpans(gaps),
    events: [],
    facts: {},
    notices: [],
  };
}

/**
 * Forces of a recorded span: calibration, then zero, then cells of one plate added up.
 *
 * A plate of several cells has no range of its own: its cells' limits are judged one by one by `cellsAtLimit`.
 *
 * @param zeros zero of each channel by name, in `unit`
 * @returns reasons of `forcesOf`
 */
export function forcesOfSpan(
  span: RecordedSpan,
  zeros: Readonly<Record<string, number>>,
  unit: string,
): Outcome<Forces> {
  const recording = recordingOfSpan(span);
  const selection: ForceSelection = {
    inputs: span.channels.map(({ name, side, unit: own }, index) => ({
      from: { kind: 'channel', index },
      part: side,
      // A zero is in the unit of the test, `forcesOf` takes it in the channel's.
      zero: (zeros[name] ?? 0) / conversionFactor(own, unit),
    })),
  };
  const outcome = forcesOf(recording, selection, unit);
  if (!outcome.ok) return outcome;
  return { ok: true, value: { ...outcome.value, plates: mergedPlates(span.channels, outcome.value.plates) } };
}

function mergedPlates(channels: readonly StreamChannel[], cells: readonly PlateForce[]): PlateForce[] {
  const byPlate = new Map<string, PlateForce[]>();
  channels.forEach(({ plate }, at) => {
    byPlate.set(plate, [...(byPlate.get(plate) ?? []), cells[at] as PlateForce]);
  });
  return [...byPlate].map(([name, parts]) => {
    const [first, ...rest] = parts as [PlateForce, ...PlateForce[]];
    if (rest.length === 0) return { ...first, name };
    const force = first.force.slice();
    for (const part of rest) for (let i = 0; i < force.length; i++) force[i] = force[i]! + part.force[i]!;
    return { name, side: first.side, force };
  });
}

/** Share of a cell's range that counts as its limit. */
const limitShare = 0.995;

/** True when a cell of a plate with several cells reached its upper or lower limit anywhere in the span. */
export function cellsAtLimit({ channels, raw }: RecordedSpan): boolean {
  const cells = new Map<string, number>();
  for (const { plate } of channels) cells.set(plate, (cells.get(plate) ?? 0) + 1);
  return channels.some(({ plate, rawRange }, at) => {
    if (rawRange === undefined || cells.get(plate) === 1) return false;
    const [low, high] = rawRange;
    const middle = (low + high) / 2;
    const reach = limitShare * ((high - low) / 2);
    const values = raw[at] as Float64Array;
    for (let i = 0; i < values.length; i++) if (Math.abs((values[i] as number) - middle) >= reach) return true;
    return false;
  });
}
