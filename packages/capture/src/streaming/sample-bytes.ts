import { longestText, type StreamFormat, valueBytes } from './protocol.ts';
import type { StreamFault } from './stream-fault.ts';

/** How the samples of one connection are encoded. */
export interface SampleEncoding {
  readonly format: StreamFormat;
  readonly channels: number;
  readonly order: 'little' | 'big';
}

/** One sample: its time by the sender's clock, s, where it was sent, and a value for each channel. */
export interface StreamSample {
  readonly time?: number;
  readonly values: readonly (number | string)[] | Float64Array;
}

const deduced = 1;
const stamped = 2;

const put: Readonly<
  Record<Exclude<StreamFormat, 'string'>, (view: DataView, at: number, value: number, little: boolean) => void>
> = {
  float32: (view, at, value, little) => view.setFloat32(at, value, little),
  double64: (view, at, value, little) => view.setFloat64(at, value, little),
  int32: (view, at, value, little) => view.setInt32(at, value, little),
  int16: (view, at, value, little) => view.setInt16(at, value, little),
  int8: (view, at, value) => view.setInt8(at, value),
  int64: (view, at, value, little) => view.setBigInt64(at, BigInt(Math.round(value)), little),
};

const take: Readonly<Record<Exclude<StreamFormat, 'string'>, (view: DataView, at: number, little: boolean) => number>> =
  {
    float32: (view, at, little) => view.getFloat32(at, little),
    double64: (view, at, little) => view.getFloat64(at, little),
    int32: (view, at, little) => view.getInt32(at, little),
    int16: (view, at, little) => view.getInt16(at, little),
    int8: (view, at) => view.getInt8(at),
    // Beyond 2^53 the last digits are lost; no plate counts so far.
    int64: (view, at, little) => Number(view.getBigInt64(at, little)),
  };

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/**
 * Samples as they travel: a byte 1 (time deduced) or 2 (time follows as a double), then the values in the order of the channels. A text
 * is a byte with the width of its length, the length, and its bytes in UTF-8.
 */
export function writeSamples(samples: readonly StreamSample[], encoding: SampleEncoding): Uint8Array {
  const { format, order } = encoding;
  const little = order === 'little';
  const texts =
    format === 'string' ? samples.map(({ values }) => [...values].map((one) => encoder.encode(String(one)))) : [];
  const length = samples.reduce((sum, { time, values }, i) => {
    const inside =
      format === 'string'
        ? (texts[i] ?? []).reduce((all, text) => all + 1 + widthOf(text.length) + text.length, 0)
        : values.length * valueBytes[format];
    return sum + (time === undefined ? 1 : 9) + inside;
  }, 0);
  const bytes = new Uint8Array(length);
  const view = new DataView(bytes.buffer);
  let at = 0;
  samples.forEach(({ time, values }, i) => {
    view.setUint8(at++, time === undefined ? deduced : stamped);
    if (time !== undefined) {
      view.setFloat64(at, time, little);
      at += 8;
    }
    if (format !== 'string') {
      for (const value of values) {
        put[format](view, at, Number(value), little);
        at += valueBytes[format];
      }
      return;
    }
    for (const text of texts[i] ?? []) {
      const width = widthOf(text.length);
      view.setUint8(at, width);
      if (width === 1) view.setUint8(at + 1, text.length);
      else view.setUint32(at + 1, text.length, little);
      bytes.set(text, at + 1 + width);
      at += 1 + width + text.length;
    }
  });
  return bytes;
}

const widthOf = (length: number): 1 | 4 => (length < 256 ? 1 : 4);

export interface SampleReader {
  /** @param time s, by the sender's clock; undefined where it is to be deduced. The values may be kept. */
  sample(time: number | undefined, values: Float64Array | readonly string[]): void;
  /** Bytes that are no sample. Nothing comes after it. */
  fault(fault: StreamFault): void;
}

/**
 * Reads samples from bytes in pieces of any size. Holds no more than one unfinished sample and the piece being fed: at most 64 KiB for each
 * text it may hold, and lengths of texts beyond that are a fault.
 */
export class SampleBytes {
  readonly #encoding: SampleEncoding;
  readonly #reader: SampleReader;
  #rest: Uint8Array = new Uint8Array(0);
  #over = false;

  constructor(encoding: SampleEncoding, reader: SampleReader) {
    this.#encoding = encoding;
    this.#reader = reader;
  }

  /** The bytes may be reused by the caller afterwards. */
  feed(bytes: Uint8Array): void {
    if (this.#over) return;
    let all = bytes;
    if (this.#rest.length > 0) {
      all = new Uint8Array(this.#rest.length + bytes.length);
      all.set(this.#rest);
      all.set(bytes, this.#rest.length);
    }
    const view = new DataView(all.buffer, all.byteOffset, all.byteLength);
    let at = 0;
    while (at < all.length && !this.#over) {
      const next = this.#one(all, view, at);
      if (next === undefined) break;
      at = next;
    }
    this.#rest = this.#over ? new Uint8Array(0) : all.slice(at);
  }

  /** Bytes of a sample that is not whole yet. */
  get held(): number {
    return this.#rest.length;
  }

  /** Position after one sample; undefined while it is not whole. */
  #one(bytes: Uint8Array, view: DataView, start: number): number | undefined {
    const little = this.#encoding.order === 'little';
    const tag = bytes[start];
    if (tag !== deduced && tag !== stamped) return this.#fault(`A sample begins with ${tag}.`);
    let at = start + 1;
    let time: number | undefined;
    if (tag === stamped) {
      if (at + 8 > bytes.length) return undefined;
      time = view.getFloat64(at, little);
      if (!Number.isFinite(time)) return this.#fault('A time is no number.');
      at += 8;
    }
    const { format, channels } = this.#encoding;
    if (format === 'string') return this.#texts(bytes, view, at, time);
    const width = valueBytes[format];
    if (at + channels * width > bytes.length) return undefined;
    const values = new Float64Array(channels);
    for (let c = 0; c < channels; c++, at += width) values[c] = take[format](view, at, little);
    this.#reader.sample(time, values);
    return at;
  }

  #texts(bytes: Uint8Array, view: DataView, start: number, time: number | undefined): number | undefined {
    const values: string[] = [];
    let at = start;
    for (let c = 0; c < this.#encoding.channels; c++) {
      const width = bytes[at];
      if (width === undefined) return undefined;
      if (width !== 1 && width !== 2 && width !== 4 && width !== 8)
        return this.#fault(`The length of a text is said to have ${width} bytes.`);
      if (at + 1 + width > bytes.length) return undefined;
      const length = lengthAt(view, at + 1, width, this.#encoding.order === 'little');
      if (length > longestText) return this.#fault(`A text is said to have ${length} bytes.`);
      at += 1 + width;
      if (at + length > bytes.length) return undefined;
      values.push(decoder.decode(bytes.subarray(at, at + length)));
      at += length;
    }
    this.#reader.sample(time, values);
    return at;
  }

  #fault(words: string): undefined {
    this.#over = true;
    this.#reader.fault({ code: 'stream-sample-unreadable', words });
    return undefined;
  }
}

function lengthAt(view: DataView, at: number, width: 1 | 2 | 4 | 8, little: boolean): number {
  if (width === 1) return view.getUint8(at);
  if (width === 2) return view.getUint16(at, little);
  if (width === 4) return view.getUint32(at, little);
  return Number(view.getBigUint64(at, little));
}
