import type { Samples } from './statistics.ts';

/** A straight line through samples: its value at the first of them, its change per sample, and the SD of what it leaves. */
export interface Line {
  readonly start: number;
  readonly slope: number;
  /** Sample SD of the residuals with n - 2, the two numbers of the line being estimated. */
  readonly sd: number;
}

/**
 * Least-squares line through array[from .. to), at least three samples.
 *
 * Sums are taken about the middle of the piece and about its first value, so a constant piece gives its value exactly, with
 * slope and SD 0. Throws RangeError when the piece is shorter or leaves the array.
 */
export function lineThrough(array: Samples, from: number, to: number): Line {
  const n = to - from;
  if (!(from >= 0 && to <= array.length && n >= 3)) throw new RangeError(`No line through [${from}, ${to}).`);
  const origin = array[from] as number;
  const middle = (n - 1) / 2;
  let sum = 0;
  let product = 0;
  for (let i = 0; i < n; i++) {
    const d = (array[from + i] as number) - origin;
    sum += d;
    product += (i - middle) * d;
  }
  // Sum of (i - middle)^2.
  const slope = product / ((n * (n * n - 1)) / 12);
  const mean = sum / n;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const residual = (array[from + i] as number) - origin - mean - slope * (i - middle);
    squares += residual * residual;
  }
  return { start: origin + mean - slope * middle, slope, sd: Math.sqrt(squares / (n - 2)) };
}
