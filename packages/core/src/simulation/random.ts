import { exactLog } from './exact-math.ts';

/** Numbers that look random and are wholly decided by a seed and a stream number. */
export interface SeededRandom {
  /** Uniform on the open interval (0, 1), 32 bits. */
  readonly uniform: () => number;
  /** Uniform between two limits. */
  readonly between: (low: number, high: number) => number;
  /** Normal with mean 0 and SD 1. */
  readonly gaussian: () => number;
  /** One of the items, each as likely as the others. */
  readonly pick: <T>(items: readonly [T, ...T[]]) => T;
}

/**
 * Philox4x32-10: four 32-bit words from a 128-bit counter and a 64-bit key.
 *
 * Counter-based, so streams with different keys never need mixing or long jumps. Source: Salmon, Moraes, Dror and Shaw,
 * "Parallel random numbers: as easy as 1, 2, 3", SC'11, doi 10.1145/2063384.2063405.
 */
export function philox4x32(counter: Uint32Array, key0: number, key1: number, out: Uint32Array): void {
  let c0 = counter[0]!;
  let c1 = counter[1]!;
  let c2 = counter[2]!;
  let c3 = counter[3]!;
  let k0 = key0 >>> 0;
  let k1 = key1 >>> 0;
  for (let round = 0; round < 10; round++) {
    const high0 = multiplyHigh(0xd2511f53, c0);
    const low0 = Math.imul(0xd2511f53, c0);
    const high1 = multiplyHigh(0xcd9e8d57, c2);
    const low1 = Math.imul(0xcd9e8d57, c2);
    c0 = (high1 ^ c1 ^ k0) >>> 0;
    c1 = low1 >>> 0;
    c2 = (high0 ^ c3 ^ k1) >>> 0;
    c3 = low0 >>> 0;
    k0 = (k0 + 0x9e3779b9) >>> 0;
    k1 = (k1 + 0xbb67ae85) >>> 0;
  }
  out[0] = c0;
  out[1] = c1;
  out[2] = c2;
  out[3] = c3;
}

/** Upper 32 bits of the 64-bit product of two unsigned 32-bit numbers, from products of halves; every intermediate fits 32 bits. */
function multiplyHigh(a: number, b: number): number {
  const aHigh = a >>> 16;
  const aLow = a & 0xffff;
  const bHigh = b >>> 16;
  const bLow = b & 0xffff;
  const middle = ((Math.imul(aHigh, bLow) >>> 0) + (Math.imul(aLow, bLow) >>> 16)) >>> 0;
  const carry = ((Math.imul(aLow, bHigh) >>> 0) + (middle & 0xffff)) >>> 0;
  return (Math.imul(aHigh, bHigh) + (middle >>> 16) + (carry >>> 16)) >>> 0;
}

/**
 * A generator for one purpose. Streams of one seed are independent, so more plate noise never changes the pull beneath it.
 * @param seed taken modulo 2^32
 * @param stream which purpose; taken modulo 2^32
 */
export function seededRandom(seed: number, stream: number): SeededRandom {
  const counter = new Uint32Array(4);
  const block = new Uint32Array(4);
  let used = 4;
  let spare: number | undefined;
  const uniform = (): number => {
    if (used === 4) {
      philox4x32(counter, seed, stream, block);
      counter[0] = counter[0]! + 1;
      if (counter[0] === 0) counter[1] = counter[1]! + 1;
      used = 0;
    }
    return (block[used++]! + 0.5) / 4294967296;
  };
  const gaussian = (): number => {
    if (spare !== undefined) {
      const value = spare;
      spare = undefined;
      return value;
    }
    // Polar method (Marsaglia and Bray 1964): needs no sine.
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const s = x * x + y * y;
      if (s >= 1 || s === 0) continue;
      const scale = Math.sqrt((-2 * exactLog(s)) / s);
      spare = y * scale;
      return x * scale;
    }
  };
  return {
    uniform,
    gaussian,
    between: (low, high) => low + (high - low) * uniform(),
    pick: (items) => items[Math.floor(uniform() * items.length)]!,
  };
}
