import { round } from './numbers.ts';
import type { Span } from './types.ts';

/** b0, b1, b2, a1, a2 of the second-order Butterworth low-pass whose two passes together have -3 dB at `cutoff`. */
export function butterworth(cutoff: number, fs: number): readonly [number, number, number, number, number] {
  const omega = Math.tan((Math.PI * cutoff) / fs) / (Math.SQRT2 - 1) ** 0.25;
  const d = 1 + Math.SQRT2 * omega + omega * omega;
  const b0 = (omega * omega) / d;
  return [b0, 2 * b0, b0, (2 * (omega * omega - 1)) / d, (1 - Math.SQRT2 * omega + omega * omega) / d];
}

/** One pass, begun in the steady state that belongs to the first sample. */
function pass(x: readonly number[], [b0, b1, b2, a1, a2]: ReturnType<typeof butterworth>): number[] {
  // y = x for ever: z2 = (b2 - a2) x and z1 = (b1 - a1) x + z2.
  let z2 = (b2 - a2) * x[0]!;
  let z1 = (b1 - a1) * x[0]! + z2;
  const y: number[] = [];
  for (const value of x) {
    const out = b0 * value + z1;
    z1 = b1 * value - a1 * out + z2;
    z2 = b2 * value - a2 * out;
    y.push(out);
  }
  return y;
}

/** Forward and back over one gap-free piece, extended oddly by 1 s or the piece's length - 1. */
export function filterPiece(piece: readonly number[], cutoff: number, fs: number): number[] {
  const N = piece.length;
  if (N === 0) return [];
  const extra = Math.min(round(fs), N - 1);
  const long: number[] = [];
  for (let i = extra; i >= 1; i--) long.push(2 * piece[0]! - piece[i]!);
  for (let i = 0; i < N; i++) long.push(piece[i]!);
  for (let i = 1; i <= extra; i++) long.push(2 * piece[N - 1]! - piece[N - 1 - i]!);
  const coefficients = butterworth(cutoff, fs);
  const forward = pass(long, coefficients).reverse();
  const back = pass(forward, coefficients).reverse();
  return back.slice(extra, extra + N);
}

/** Each gap-free piece by itself; samples inside an unfilled gap hold the value before it. */
export function filter(F: Float64Array, open: readonly Span[], cutoff: number, fs: number): Float64Array {
  const out = Float64Array.from(F);
  let start = 0;
  for (const gap of [...open, { start: F.length, end: F.length }]) {
    const piece = filterPiece(Array.from(F.subarray(start, gap.start)), cutoff, fs);
    for (let i = 0; i < piece.length; i++) out[start + i] = piece[i]!;
    for (let n = gap.start; n < gap.end; n++) out[n] = n > 0 ? out[n - 1]! : 0;
    start = gap.end;
  }
  return out;
}

/** Gaps of at most 5 ms are filled linearly and marked; longer ones stay and hold the value before them. */
export function fillGaps(F: Float64Array, missing: readonly Span[], fs: number) {
  const force = Float64Array.from(F);
  const filled: Span[] = [];
  const open: Span[] = [];
  for (const gap of missing) {
    const before = gap.start - 1;
    if ((gap.end - gap.start) / fs <= 0.005 && before >= 0 && gap.end < F.length) {
      filled.push(gap);
      for (let n = gap.start; n < gap.end; n++) {
        force[n] = F[before]! + ((n - before) / (gap.end - before)) * (F[gap.end]! - F[before]!);
      }
    } else {
      open.push(gap);
      for (let n = gap.start; n < gap.end; n++) force[n] = before >= 0 ? F[before]! : (F[gap.end] ?? 0);
    }
  }
  return { force, filled, open };
}

/** Rate of a file with a time column, s: snapped to the declared rate, else to the nearest whole hertz, within 0.05 %. */
export function rateOfTimes(times: readonly number[], declared?: number): number {
  const measured = (times.length - 1) / (times[times.length - 1]! - times[0]!);
  if (declared !== undefined && Math.abs(measured - declared) <= 0.0005 * declared) return declared;
  const whole = round(measured);
  if (Math.abs(measured - whole) <= 0.0005 * whole) return whole;
  return measured;
}
