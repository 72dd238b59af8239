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
  /** Channels that do not enter the analysis but belong to it, such as the signals a force was made of; absent: none. */
  readonly beside?: { readonly channels: readonly StreamChannel[]; readonly raw: readonly Float64Array[] };
}

/**
 * The recording of a span: raw values with their calibration as recorded steps, missing samples listed. Force channels come first, so
 * that their places are those of the span.
 */
export function recordingOfSpan({ sampleRate, beside, ...forces }: RecordedSpan): Recording {
  const channels = [...forces.channels, ...(beside?.channels ?? [])];
  const raw = [...forces.raw, ...(beside?.raw ?? [])];
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
 * Of a plate of several cells, or made of several signals, no limit can be seen in the sum: theirs are judged one by one by `cellsAtLimit`.
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

/** Share of half a channel's range that counts as its limit, from the middle of the range. */
const limitShare = 0.995;

/**
 * True when something a plate's force is put together from reached its upper or lower limit anywhere in the span: a cell of a plate
 * with several cells, or a signal that a calibration made the force of. Their limits cannot be seen in the sum.
 */
export function cellsAtLimit({ channels, raw, beside }: RecordedSpan): boolean {
  const cells = new Map<string, number>();
  for (const { plate } of channels) cells.set(plate, (cells.get(plate) ?? 0) + 1);
  const signals = new Set(channels.flatMap(({ madeOf }) => madeOf?.map(({ channel }) => channel) ?? []));
  const isCell = ({ plate }: StreamChannel) => cells.get(plate) !== 1;
  const isSignal = ({ name }: StreamChannel) => signals.has(name);
  return (
    channels.some((channel, at) => isCell(channel) && reachesLimit(channel, raw[at] as Float64Array)) ||
    beside?.channels.some(
      (channel, at) => isSignal(channel) && reachesLimit(channel, beside.raw[at] as Float64Array),
    ) === true
  );
}

/** An end of the range at which a channel rests unloaded cuts nothing off. */
function reachesLimit({ rawRange, offset }: StreamChannel, values: Float64Array): boolean {
  if (rawRange === undefined) return false;
  const [low, high] = rawRange;
  const margin = ((1 - limitShare) * (high - low)) / 2;
  const lower = Math.abs(offset - low) > margin ? low + margin : Number.NEGATIVE_INFINITY;
  const upper = Math.abs(offset - high) > margin ? high - margin : Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (value <= lower || value >= upper) return true;
  }
  return false;
}
