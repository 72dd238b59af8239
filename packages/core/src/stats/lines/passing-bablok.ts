import { have, lack, type Outcome } from '../../outcome.ts';
import { normal } from '../distributions/index.ts';
import { estimate, upperProbability, usualLevel } from '../interval.ts';
import type { MethodLine } from './line.ts';

/** A Passing-Bablok line; `slopes` and `shift` are the N and K of the paper. */
export interface PassingBablokLine extends MethodLine {
  readonly slopes: number;
  readonly shift: number;
  /** Fewer than 30 pairs: the intervals are rough. */
  readonly small: boolean;
}

/** Differences of less than this share of the largest value are equal: decimals are not exact in binary. */
const equalWithin = 1e-11;

/**
 * Passing and Bablok's line: the median of all pairwise slopes, shifted by the number of those under -1; 0/0 and -1 are left out,
 * a
 * vertical pair counts as infinite with the sign of its later y less its earlier. Intercept median(y - b x). Limits at the ranks M1 = round((N - C) / 2), M2 = N - M1 + 1, C = z
 * sqrt(n (n-1) (2n+5) / 18).
 *
 * @returns `too-few-values` under four pairs, `no-spread` where no slope or no finite limit is left
 * Source: Passing & Bablok 1983, J Clin Chem Clin Biochem 21:709-720.
 */
export function passingBablok(
  x: readonly number[],
  y: readonly number[],
  level = usualLevel,
): Outcome<PassingBablokLine> {
  const n = x.length;
  if (n < 4) return lack('too-few-values');
  const slopes = slopesOf(x, y);
  const count = slopes.length;
  const shift = slopes.filter((slope) => slope < -1).length;
  const at = (rank: number): number => slopes[rank - 1] ?? Number.NaN;
  const middle = (count + 1) / 2 + shift;
  const slope = (at(Math.floor(middle)) + at(Math.ceil(middle))) / 2;
  const c = normal.quantile(upperProbability(level)) * Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const first = Math.round((count - c) / 2);
  const low = at(first + shift);
  const high = at(count - first + 1 + shift);
  if (![slope, low, high].every(Number.isFinite)) return lack('no-spread');
  const intercept = (b: number) => median(y.map((value, i) => value - b * (x[i] as number)));
  return have({
    n,
    slope: estimate(slope, low, high, level),
    intercept: estimate(intercept(slope), intercept(high), intercept(low), level),
    ...{ slopes: count, shift, small: n < 30 },
  });
}

function slopesOf(x: readonly number[], y: readonly number[]): Float64Array {
  const largest = Math.max(...x.map(Math.abs), ...y.map(Math.abs));
  const step = equalWithin * largest;
  const apart = (one: number, other: number) => (Math.abs(one - other) <= step ? 0 : one - other);
  const found: number[] = [];
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      const dx = apart(x[j] as number, x[i] as number);
      const dy = apart(y[j] as number, y[i] as number);
      if (dx === 0 && dy === 0) continue;
      if (apart(dy, -dx) === 0) continue;
      found.push(dx === 0 ? dy * Number.POSITIVE_INFINITY : dy / dx);
    }
  }
  return Float64Array.from(found).sort();
}

function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const half = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(half)] as number) + (sorted[Math.ceil(half)] as number)) / 2;
}
