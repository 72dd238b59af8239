import betainc from '@stdlib/math-base-special-betainc';
import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import chiSquareQuantile from '@stdlib/stats-base-dists-chisquare-quantile';
import fCdf from '@stdlib/stats-base-dists-f-cdf';
import fQuantile from '@stdlib/stats-base-dists-f-quantile';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';

/** Standard normal distribution. */
export const normal = {
  /** P(Z <= z) */
  below: (z: number): number => normalCdf(z, 0, 1),
  /** P(Z > z), exact in the far tail. */
  above: (z: number): number => normalCdf(-z, 0, 1),
  /** z with P(Z <= z) = p; one Newton step gives the digits back that the library loses in the far tail. */
  quantile(p: number): number {
    if (p > 0.5) return -normal.quantile(1 - p);
    const z = normalQuantile(p, 0, 1);
    if (!Number.isFinite(z)) return z;
    return z - (normal.below(z) - p) / (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI));
  },
};

/** Student's t; degrees of freedom need not be whole, and infinitely many are the normal distribution. */
export const studentT = {
  below: (t: number, df: number): number => (df === Number.POSITIVE_INFINITY ? normal.below(t) : tCdf(t, df)),
  above: (t: number, df: number): number => studentT.below(-t, df),
  quantile: (p: number, df: number): number =>
    df === Number.POSITIVE_INFINITY ? normal.quantile(p) : tQuantile(p, df),
  /** P(|T| >= |t|) */
  twoSided: (t: number, df: number): number => Math.min(1, 2 * studentT.below(-Math.abs(t), df)),
};

/** Chi-square. */
export const chiSquare = {
  below: (x: number, df: number): number => chiSquareCdf(x, df),
  quantile: (p: number, df: number): number => chiSquareQuantile(p, df),
};

/** Fisher's F; degrees of freedom need not be whole. */
export const fisherF = {
  below: (x: number, numerator: number, denominator: number): number => fCdf(x, numerator, denominator),
  /** P(F > x) by the incomplete beta function of the complement, so that a small one keeps its digits. */
  above: (x: number, numerator: number, denominator: number): number =>
    x <= 0 ? 1 : betainc(denominator / (denominator + numerator * x), denominator / 2, numerator / 2),
  quantile: (p: number, numerator: number, denominator: number): number => fQuantile(p, numerator, denominator),
};
