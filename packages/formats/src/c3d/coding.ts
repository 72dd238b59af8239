import type { Channel, RawSamples } from '@sthene/core';
import { type Storage, samplesOf } from '../description/index.ts';

/**
 * How a channel's raw values are put into 32-bit floats, and back:
 * `plain` stores them as they are; `shifted` stores `raw - offset` where OFFSET cannot hold the offset; `decimal` stores
 * the whole number `raw * 10^digits`, which brings decimals such as 784.62 through a 32-bit float unharmed; `split` stores
 * the nearest float and what is left over in one or two channels more, whose sum is the value again.
 */
export type Coding =
  | { readonly kind: 'plain' }
  | { readonly kind: 'shifted' }
  | { readonly kind: 'decimal'; readonly digits: number }
  | { readonly kind: 'split'; readonly rests: number };

/** A channel ready to be written: stored floats and the ANALOG:OFFSET and SCALE that give others the physical value. */
export interface CodedChannel {
  readonly coding: Coding;
  readonly stored: Float32Array;
  /** What `split` leaves over; empty for the other codings. */
  readonly rests: readonly Float32Array[];
  readonly offset: number;
  readonly scale: number;
  /** Largest difference after reading back, in the channel's physical unit; 0 when all raw values return exactly. */
  readonly largestDifference: number;
}

/** Whole numbers up to here are exact in a 32-bit float. */
const largestWhole = 2 ** 24;

const fitsOffset = (value: number): boolean => Number.isInteger(value) && value >= -32768 && value <= 32767;

/** Same number, telling -0 from 0 and taking any NaN for any other. */
const same = (a: number, b: number): boolean => Object.is(a, b);

/** Raw values from stored floats: the inverse of `encode`. */
export function decode(
  stored: RawSamples,
  coding: Coding,
  offset: number,
  storage: Storage,
  rests: readonly RawSamples[] = [],
): RawSamples {
  const raw = samplesOf(storage, stored.length);
  const divisor = coding.kind === 'decimal' ? 10 ** coding.digits : 1;
  const shift = coding.kind === 'shifted' ? offset : 0;
  for (let i = 0; i < stored.length; i++) {
    let value = stored[i] as number;
    for (const rest of rests) value += rest[i] as number;
    // Dividing a whole number by a power of ten rounds exactly like reading the decimal did.
    raw[i] = shift !== 0 ? value + shift : divisor === 1 ? value : value / divisor;
  }
  return raw;
}

/** Tries one coding; the result is null as soon as a sample would not return exactly. */
function exact(raw: RawSamples, storage: Storage, coding: Coding, offset: number): Float32Array | null {
  const stored = new Float32Array(raw.length);
  const one = samplesOf(storage, 1);
  const factor = coding.kind === 'decimal' ? 10 ** coding.digits : 1;
  for (let i = 0; i < raw.length; i++) {
    const value = raw[i] as number;
    let held = value;
    if (coding.kind === 'shifted') held = value - offset;
    if (coding.kind === 'decimal') {
      const whole = Math.round(value * factor);
      // Math.round loses the sign of -0 no more than of -0.3; such values fail the comparison below.
      held = whole === 0 && Object.is(value, -0) ? -0 : whole;
      if (Math.abs(held) > largestWhole) return null;
    }
    stored[i] = held;
    const back = stored[i] as number;
    one[0] = coding.kind === 'shifted' ? back + offset : factor === 1 ? back : back / factor;
    if (!same(one[0] as number, value)) return null;
  }
  return stored;
}

/**
 * Splits values into floats whose sum is exact: 24 of the 53 bits of a double at a time. Null where even three do not do (beyond
 * the range of floats).
 */
function split(raw: RawSamples, storage: Storage): { stored: Float32Array; rests: Float32Array[] } | null {
  const parts = [0, 1, 2].map(() => new Float32Array(raw.length));
  let used = 0;
  for (let i = 0; i < raw.length; i++) {
    let left = raw[i] as number;
    for (const [p, part] of parts.entries()) {
      part[i] = left;
      const held = part[i] as number;
      // Adding -0 changes no number, not even -0 itself.
      left = left === held || Number.isNaN(held) ? -0 : left - held;
      if (!Object.is(held, -0) && p > used) used = p;
    }
  }
  const [stored = new Float32Array(0), ...rests] = parts;
  const needed = rests.slice(0, used);
  const back = decode(stored, { kind: 'split', rests: needed.length }, 0, storage, needed);
  for (let i = 0; i < raw.length; i++) if (!same(back[i] as number, raw[i] as number)) return null;
  return { stored, rests: needed };
}

/** The first coding that brings every sample back exactly; failing all, the nearest floats and how far they are off. */
export function encode(channel: Channel, storage: Storage): CodedChannel {
  const { raw, offset, scale } = channel;
  const plain: Coding = fitsOffset(offset) ? { kind: 'plain' } : { kind: 'shifted' };
  const candidates: Coding[] = [plain];
  for (let digits = 1; digits <= 7; digits++) {
    if (fitsOffset(offset * 10 ** digits)) candidates.push({ kind: 'decimal', digits });
  }
  for (const coding of candidates) {
    const stored = exact(raw, storage, coding, offset);
    if (stored === null) continue;
    const factor = coding.kind === 'decimal' ? 10 ** coding.digits : 1;
    return {
      coding,
      stored,
      rests: [],
      offset: coding.kind === 'shifted' ? 0 : offset * factor,
      scale: scale / factor,
      largestDifference: 0,
    };
  }
  const parts = plain.kind === 'plain' ? split(raw, storage) : null;
  if (parts !== null) {
    const coding: Coding = { kind: 'split', rests: parts.rests.length };
    return { coding, ...parts, offset, scale, largestDifference: 0 };
  }
  const stored = Float32Array.from(raw, (value: number) => (plain.kind === 'shifted' ? value - offset : value));
  const back = decode(stored, plain, offset, storage);
  let largest = 0;
  for (let i = 0; i < raw.length; i++) {
    const difference = Math.abs((back[i] as number) - (raw[i] as number)) * Math.abs(scale);
    if (difference > largest) largest = difference;
  }
  return {
    coding: plain,
    stored,
    rests: [],
    offset: plain.kind === 'shifted' ? 0 : offset,
    scale,
    largestDifference: largest,
  };
}
