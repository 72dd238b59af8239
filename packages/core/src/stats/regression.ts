import { meanOf } from '../signal/index.ts';
import { studentT } from './distributions/index.ts';

/** A least-squares line y = intercept + slope x, x without error. */
export interface StraightLine {
  readonly n: number;
  readonly slope: number;
  readonly intercept: number;
  /** Standard errors, and SD of the residuals with n - 2 degrees of freedom. */
  readonly slopeError: number;
  readonly interceptError: number;
  readonly residualSd: number;
  /** Pearson's r. */
  readonly r: number;
  /** Two-sided p of slope = 0. */
  readonly p: number;
}

/** Sums of squares and products about the means. */
export function centred(x: readonly number[], y: readonly number[]) {
  const [mx, my] = [meanOf(x), meanOf(y)];
  let [sxx, syy, sxy] = [0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    const [dx, dy] = [(x[i] as number) - mx, (y[i] as number) - my];
    sxx += dx * dx;
    syy += dy * dy;
    sxy += dx * dy;
  }
  return { mx, my, sxx, syy, sxy };
}

/** Ordinary least squares through at least three points; undefined where all x are equal. */
export function straightLine(x: readonly number[], y: readonly number[]): StraightLine | undefined {
  const n = x.length;
  if (n !== y.length) throw new RangeError('x and y are equally long.');
  if (n < 3) return undefined;
  const { mx, my, sxx, syy, sxy } = centred(x, y);
  if (sxx === 0) return undefined;
  const slope = sxy / sxx;
  const intercept = my - slope * mx;
  let residuals = 0;
  for (let i = 0; i < n; i++) residuals += ((y[i] as number) - my - slope * ((x[i] as number) - mx)) ** 2;
  const variance = residuals / (n - 2);
  const slopeError = Math.sqrt(variance / sxx);
  return {
    ...{ n, slope, intercept, slopeError },
    interceptError: Math.sqrt(variance * (1 / n + (mx * mx) / sxx)),
    residualSd: Math.sqrt(variance),
    r: syy === 0 ? 0 : sxy / Math.sqrt(sxx * syy),
    p: slope === 0 ? 1 : studentT.twoSided(slope / slopeError, n - 2),
  };
}
