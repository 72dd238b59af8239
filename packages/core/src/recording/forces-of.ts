import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import { conversionFactor, convertible } from '../units/index.ts';
import { fillGaps } from './fill.ts';
import type { ForceInput, ForceSelection, Forces, PlateForce } from './forces.ts';
import { physicalRange } from './physical.ts';
import type { RawSamples, Recording } from './recording.ts';
import type { SampleSpan } from './sample.ts';
import { joinSpans, outsideSpans } from './spans.ts';

/**
 * Turns the chosen inputs of a recording into the forces an analysis works on.
 *
 * Each input becomes sign * newtonsPerUnit * (x - zero) where a gain is given, else sign * (x - zero) converted from its unit
 * (its own, or the one the selection names) to `unit`; a platform's vertical force is also multiplied by its press sign.
 * Short gaps are filled, long ones stay open (see `Forces`). F is the sum of the inputs declared `total`, else of all.
 *
 * @param unit UCUM code of the result: 'N', or the unit of a test without body weight
 * @returns `no-force-channel` when nothing is chosen or a chosen input is not there; `unit-unknown` when an input has neither a
 * gain nor a unit that converts to `unit`; `recording-too-short` for a recording without samples
 */
export function forcesOf(recording: Recording, selection: ForceSelection, unit = 'N'): Outcome<Forces> {
  const { sampleRate, sampleCount } = recording;
  if (selection.inputs.length === 0) return lack('no-force-channel');
  if (sampleCount === 0) return lack('recording-too-short');
  const sources: { input: ForceInput; source: Source }[] = [];
  for (const input of selection.inputs) {
    const source = sourceOf(recording, input);
    if (source === undefined) return lack('no-force-channel');
    sources.push({ input, source });
  }
  const plates: PlateForce[] = [];
  const filled: SampleSpan[] = [];
  const open: SampleSpan[] = [];
  for (const { input, source } of sources) {
    const own = input.unit ?? source.unit;
    if (input.newtonsPerUnit === undefined && !convertible(own, unit)) return lack('unit-unknown');
    const gain = source.sign * (input.sign ?? 1) * (input.newtonsPerUnit ?? conversionFactor(own, unit));
    const zero = input.zero ?? 0;
    const force = scaled(source, gain, zero, sampleCount);
    const gaps = fillGaps(force, missingSamples(recording, source, force), sampleRate);
    filled.push(...gaps.filled);
    open.push(...gaps.open);
    const limits = source.range?.map((value) => gain * (value - zero)).sort((a, b) => a - b);
    plates.push({
      name: source.name,
      side: input.part,
      force,
      ...(limits === undefined ? {} : { range: limits as unknown as readonly [number, number] }),
    });
  }
  const openGaps = joinSpans(open);
  const left = sumOf(plates.filter((plate) => plate.side === 'left'));
  const right = sumOf(plates.filter((plate) => plate.side === 'right'));
  const declared = plates.filter((plate) => plate.side === 'total');
  return have({
    sampleRate,
    sampleCount,
    unit,
    total: sumOf(declared.length > 0 ? declared : plates) as Float64Array,
    ...(left === undefined ? {} : { left }),
    ...(right === undefined ? {} : { right }),
    plates,
    gaps: { filled: outsideSpans(joinSpans(filled), openGaps), open: openGaps },
  });
}

/** Samples of one input before its gain, still as received. */
interface Source {
  readonly name: string;
  readonly unit: string;
  readonly raw: RawSamples;
  readonly scale: number;
  readonly offset: number;
  readonly sign: 1 | -1;
  readonly range: readonly [number, number] | undefined;
}

function sourceOf(recording: Recording, input: ForceInput): Source | undefined {
  if (input.from.kind === 'channel') {
    const channel = recording.channels[input.from.index];
    if (channel === undefined) return undefined;
    return { ...channel, sign: 1, range: physicalRange(channel) };
  }
  const platform = recording.platforms[input.from.index];
  if (platform?.verticalForce === undefined) return undefined;
  const { name, verticalForce: raw, pressSign: sign } = platform;
  return { name, unit: 'N', raw, scale: 1, offset: 0, sign, range: undefined };
}

function scaled({ raw, scale, offset }: Source, gain: number, zero: number, count: number): Float64Array {
  const force = new Float64Array(count).fill(Number.NaN);
  const there = Math.min(count, raw.length);
  for (let i = 0; i < there; i++) force[i] = gain * (((raw[i] as number) - offset) * scale - zero);
  return force;
}

/**
 * Samples this input misses: those without a finite value, and the recording's own gaps. A listed gap is left aside only when
 * this input has a finite value there and another float channel has none, so that the gap is plainly the other one's.
 */
function missingSamples(recording: Recording, source: Source, force: Float64Array): SampleSpan[] {
  const missing: SampleSpan[] = [];
  for (let i = 0; i < force.length; i++) {
    if (Number.isFinite(force[i])) continue;
    const start = i;
    while (i < force.length && !Number.isFinite(force[i])) i++;
    missing.push({ start, end: i });
  }
  const float = source.raw instanceof Float64Array || source.raw instanceof Float32Array;
  const others = recording.channels.filter(({ raw }) => raw instanceof Float64Array || raw instanceof Float32Array);
  for (const gap of recording.gaps) {
    for (let i = Math.max(0, gap.start); i < Math.min(gap.end, force.length); i++) {
      if (float && others.some(({ raw }) => Number.isNaN(raw[i]))) continue;
      missing.push({ start: i, end: i + 1 });
    }
  }
  return joinSpans(missing);
}

/** Sum over plates; the plate's own array when there is only one, undefined when there is none. */
function sumOf(plates: readonly PlateForce[]): Float64Array | undefined {
  const [first, ...rest] = plates;
  if (first === undefined || rest.length === 0) return first?.force;
  const sum = first.force.slice();
  for (const { force } of rest) for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] as number) + (force[i] as number);
  return sum;
}
