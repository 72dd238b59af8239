import { fisherF } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import type { ErrorOfTest } from './typical-error.ts';

/** Two independent errors of one test against each other. */
export interface ErrorRatio {
  /** First error over second, with its interval. */
  readonly ratio: Estimate;
  /** Variance ratio and its two-sided probability if both errors were the same. */
  readonly f: number;
  readonly p: number;
}

/**
 * Whether a later error agrees with one that was adopted: F = (first / second)^2 on their degrees of freedom; interval of the ratio
 * sqrt(F / F quantile).
 *
 * Source: Snedecor & Cochran 1989, Statistical Methods, 8th ed., the variance-ratio test (from memory); tested against R's var.test.
 */
export function ratioOfErrors(first: ErrorOfTest, second: ErrorOfTest, level = usualLevel): ErrorRatio {
  const f = (first.value / second.value) ** 2;
  const at = (p: number) => Math.sqrt(f / fisherF.quantile(p, first.df, second.df));
  const p = upperProbability(level);
  const below = fisherF.below(f, first.df, second.df);
  const above = fisherF.above(f, first.df, second.df);
  return { ratio: estimate(Math.sqrt(f), at(p), at(1 - p), level), f, p: Math.min(1, 2 * Math.min(below, above)) };
}
