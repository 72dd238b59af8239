import { hexBytes } from '../../description/reader.ts';
import type { FieldRole, FieldType, FrameLayout } from '../../description.ts';
import { areNumbers } from '../are-numbers.ts';
import { checksumOf, storedChecksum } from '../checksum/checksum.ts';
import type { Run } from '../run.ts';
import { numberReader, type ReadNumber } from './field.ts';
import { bytesOfType, checksumBytes, frameLength } from './frame-length.ts';

/** A field at its place: `at` counts from the start of the frame, or of the sample. */
export interface PlacedField {
  readonly role: FieldRole;
  readonly type: FieldType;
  readonly at: number;
  readonly read: ReadNumber;
  /** Index of its channel; -1 when it is none. */
  readonly channel: number;
}

/** A frame layout worked out once: where everything that is not ignored stands. */
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
  /** A field can hold what is no number. */
  readonly floating: boolean;
  readonly checksum: FrameLayout['checksum'];
  readonly checksumAt: number;
  /** Each sample has a counter of its own, so each is a run of its own. */
  readonly counted: boolean;
}

export function framePlan(layout: FrameLayout, channels: readonly string[]): FramePlan {
  const sync = hexBytes(layout.sync) as Uint8Array;
  const little = layout.endian === 'little';
  const readers = new Map<FieldType, ReadNumber>();
  const readerOf = (type: FieldType): ReadNumber => {
    const reader = readers.get(type) ?? numberReader(type, little);
    readers.set(type, reader);
    return reader;
  };
  const place = (fields: FrameLayout['head'], start: number): PlacedField[] => {
    let at = start;
    return fields.flatMap((field) => {
      const placed = {
        role: field,
        type: field.type,
        at,
        read: readerOf(field.type),
        channel: field.role === 'channel' ? channels.indexOf(field.channel) : -1,
      };
      at += bytesOfType[field.type];
      return field.role === 'ignore' ? [] : [placed];
    });
  };
  const lengthOf = (fields: FrameLayout['head']): number =>
    fields.reduce((sum, { type }) => sum + bytesOfType[type], 0);
  const head = place(layout.head, sync.length);
  const sample = place(layout.sample, 0);
  const length = frameLength(layout);
  const checksumAt = length - checksumBytes[layout.checksum.kind];
  const sampleLength = lengthOf(layout.sample);
  return {
    length,
    sync,
    head,
    sample,
    sampleStart: checksumAt - sampleLength * layout.samples,
    sampleLength,
    samples: layout.samples,
    little,
    channels: channels.length,
    floating: readers.has('f32') || readers.has('f64'),
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
  const { head, sample, samples, sampleLength, channels } = plan;
  let counter: number | undefined;
  let time: number | undefined;
  const values = new Float64Array(samples * channels);
  for (let f = 0; f < head.length; f++) {
    const { role, channel, read, at: place } = head[f] as PlacedField;
    const value = read(view, at + place);
    if (channel >= 0) for (let i = channel; i < values.length; i += channels) values[i] = value;
    else if (role.role === 'counter') counter = value;
    else time = value;
  }
  const counters: number[] = [];
  let start = at + plan.sampleStart;
  for (let i = 0; i < samples; i++, start += sampleLength) {
    for (let f = 0; f < sample.length; f++) {
      const { role, channel, read, at: place } = sample[f] as PlacedField;
      const value = read(view, start + place);
      if (channel >= 0) values[i * channels + channel] = value;
      else if (role.role === 'counter') counters.push(value);
      else if (i === 0) time = value;
    }
  }
  if (plan.floating && !(Number.isFinite(time ?? 0) && areNumbers(values))) return undefined;
  if (!plan.counted) return [runOf(counter, time, samples, values)];
  return counters.map((own, i) =>
    runOf(own, i === 0 ? time : undefined, 1, values.slice(i * channels, (i + 1) * channels)),
  );
}

/** Written out by what there is, not put together: that is the slowest part of a frame otherwise. */
function runOf(counter: number | undefined, time: number | undefined, count: number, values: Float64Array): Run {
  if (counter === undefined) return time === undefined ? { count, values } : { time, count, values };
  return time === undefined ? { counter, count, values } : { counter, time, count, values };
}
