import { readField } from '../codec/frames/field.ts';
import { bytesOfType } from '../codec/frames/frame-length.ts';
import type { FieldRole, FieldType, FrameLayout } from '../description.ts';
import { findSamples } from './find-samples.ts';
import { commonStep } from './series.ts';

type Typed = FieldRole & { readonly type: FieldType };

export interface FoundFields {
  readonly endian: 'little' | 'big';
  readonly head: readonly Typed[];
  readonly sample: readonly Typed[];
  readonly samples: number;
  readonly channels: readonly string[];
  readonly reasons: readonly string[];
}

type Endian = FrameLayout['endian'];

const valuesAt = (frames: readonly Uint8Array[], at: number, type: FieldType, endian: Endian): number[] =>
  frames.map((frame) =>
    readField(new DataView(frame.buffer, frame.byteOffset, frame.byteLength), at, type, endian === 'little'),
  );

const counterTypes: readonly { readonly type: FieldType; readonly wrapsAt: number }[] = [
  { type: 'u32', wrapsAt: 4_294_967_295 },
  { type: 'u24', wrapsAt: 16_777_215 },
  { type: 'u16', wrapsAt: 65_535 },
  { type: 'u8', wrapsAt: 255 },
];

/** The counter right after the sync bytes, if there is one: the narrowest type that goes up by one step nearly always. */
function counterAt(
  frames: readonly Uint8Array[],
  at: number,
  to: number,
): { field: Typed; endian: Endian | undefined; step: number } | undefined {
  let best: { field: Typed; endian: Endian | undefined; step: number } | undefined;
  for (const endian of ['little', 'big'] as const) {
    for (const { type, wrapsAt } of counterTypes) {
      const width = bytesOfType[type];
      if (at + width > to) continue;
      const { step, share } = commonStep(valuesAt(frames, at, type, endian));
      if (share < 0.9 || step < 1 || step > 4096) continue;
      const field: Typed = { role: 'counter', type, wrapsAt, ...(step === 1 ? {} : { step }) };
      // A wider counter with zeros above is the same numbers; the bytes above then belong to it, or the samples would not fit.
      if (best === undefined || width > bytesOfType[best.field.type])
        best = { field, endian: width === 1 ? undefined : endian, step };
    }
  }
  return best;
}

/** Numbers that jump more than this from frame to frame are no measured ones. */
const roughest = 0.6;

/** How jumpy numbers are from one to the next, against how far they range: 0 for a smooth line, about 1 for noise. */
function roughness(values: readonly number[]): number {
  let jumps = 0;
  for (let i = 1; i < values.length; i++) jumps += Math.abs((values[i] as number) - (values[i - 1] as number));
  const size = values.reduce((sum, value) => Math.max(sum, Math.abs(value)), 0);
  return size === 0 ? 0 : jumps / (values.length - 1) / size;
}

/**
 * How unlikely numbers of a type are at these places: their mean roughness, and what gives a wrong type away. Whole numbers read as
 * floats are absurdly small or large; the upper halves of wider numbers are all 0 or -1.
 */
function unlikely(frames: readonly Uint8Array[], places: readonly number[], type: FieldType, endian: Endian): number {
  const columns = places.map((at) => valuesAt(frames, at, type, endian));
  if (type === 'f32') {
    const plain = (value: number) => value === 0 || (Math.abs(value) > 1e-6 && Math.abs(value) < 1e9);
    if (!columns.every((column) => column.every(plain))) return Number.POSITIVE_INFINITY;
  }
  const rough = columns.reduce((sum, column) => sum + roughness(column), 0) / columns.length;
  if (type !== 'i16') return rough;
  const upper = columns.filter((_, i) => i % 2 === (endian === 'little' ? 1 : 0));
  const halves =
    columns.length % 2 === 0 && upper.every((column) => column.every((value) => value === 0 || value === -1));
  return halves ? rough + 1 : rough;
}

/** Types in the order in which the earlier wins when both are about as likely: a float by its plainness, else the narrower. */
const sampleTypes: readonly FieldType[] = ['f32', 'i16', 'i24', 'i32'];

/**
 * Splits the body of frames into a counter and numbers of one type. Of the types that fill the body, the one whose numbers go on
 * most smoothly from frame to frame is taken: read at the wrong width or in the wrong order, numbers jump. Where the numbers may
 * also be several samples, both readings are given, the likelier first. Empty when nothing fits.
 */
export function findFields(frames: readonly Uint8Array[], body: { from: number; to: number }): FoundFields[] {
  const counter = counterAt(frames, body.from, body.to);
  const options: (FoundFields & { rough: number; places: readonly number[]; type: FieldType })[] = [];
  const widths =
    counter === undefined
      ? [0]
      : [bytesOfType[counter.field.type], 1, 2, 4].filter((width, i, all) => all.indexOf(width) === i);
  for (const width of widths) {
    const field = counter === undefined || width === 0 ? undefined : narrowed(counter.field, width);
    if (counter !== undefined && (field === undefined || !stillCounts(frames, body.from, field, counter.endian)))
      continue;
    for (const endian of counter?.endian === undefined || width === 1
      ? (['little', 'big'] as const)
      : [counter.endian]) {
      for (const type of sampleTypes) {
        const bytes = bytesOfType[type];
        const room = body.to - body.from - width;
        if (room < bytes || room % bytes !== 0 || room / bytes > 512) continue;
        const places = Array.from({ length: room / bytes }, (_, i) => body.from + width + i * bytes);
        const rough = unlikely(frames, places, type, endian);
        if (rough > roughest) continue;
        options.push({ ...described(places.length, type, endian, field, counter?.step ?? 1), rough, places, type });
      }
    }
  }
  const best = Math.min(...options.map(({ rough }) => rough));
  const close = options.filter(({ rough }) => rough <= 1.5 * best + 0.01);
  for (const type of sampleTypes) {
    const [first] = close.filter(({ sample }) => sample[0]?.type === type).sort((a, b) => a.rough - b.rough);
    if (first !== undefined) return withSamples(frames, first);
  }
  return [];
}

/** What was found, and the same numbers as several samples where they may be such. */
function withSamples(
  frames: readonly Uint8Array[],
  { rough: _, places, type, ...found }: FoundFields & { rough: number; places: readonly number[]; type: FieldType },
): FoundFields[] {
  if (found.samples > 1) return [found];
  const columns = places.map((at) => valuesAt(frames, at, type, found.endian));
  const several = findSamples(frames.map((__, f) => columns.map((column) => column[f] as number)));
  if (several === undefined) return [found];
  const { samples, width, likely } = several;
  const channels = found.channels.slice(0, width);
  const grouped: FoundFields = {
    ...found,
    samples,
    channels,
    sample: found.sample.slice(0, width),
    reasons: [
      ...found.reasons,
      `Taken as ${samples} samples of ${width} ${width === 1 ? 'number' : 'numbers'}, each goes on evenly from the one before.`,
    ],
  };
  return likely ? [grouped, found] : [found, grouped];
}

function narrowed(field: Typed, width: number): Typed | undefined {
  const type = (['u8', 'u16', 'u24', 'u32'] as const)[width - 1];
  const wrapsAt = counterTypes.find((one) => one.type === type)?.wrapsAt;
  return type === undefined || wrapsAt === undefined || width > bytesOfType[field.type]
    ? undefined
    : ({ ...field, type, wrapsAt } as Typed);
}

function stillCounts(frames: readonly Uint8Array[], at: number, field: Typed, endian: Endian | undefined): boolean {
  return commonStep(valuesAt(frames, at, field.type, endian ?? 'little')).share >= 0.9;
}

function described(
  numbers: number,
  type: FieldType,
  endian: Endian,
  counter: Typed | undefined,
  step: number,
): FoundFields {
  // A counter that goes up by more than one a frame counts samples.
  const samples = step > 1 && numbers % step === 0 ? step : 1;
  const width = numbers / samples;
  const channels = Array.from({ length: width }, (_, i) => `channel ${i + 1}`);
  const reasons = [
    `The rest is ${numbers} numbers of the type ${type}, ${endian} end first: read so, they change least from frame to frame.`,
  ];
  if (counter !== undefined) reasons.unshift(`A counter (${counter.type}) follows; it goes up by ${step} a frame.`);
  if (samples > 1) reasons.push(`As it counts ${samples} a frame, each frame is taken to hold ${samples} samples.`);
  return {
    endian,
    head: counter === undefined ? [] : [counter],
    sample: channels.map((channel) => ({ role: 'channel', channel, type })),
    samples,
    channels,
    reasons,
  };
}
