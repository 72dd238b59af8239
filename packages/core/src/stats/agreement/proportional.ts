import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf } from '../../signal/index.ts';
import { studentT } from '../distributions/index.ts';
import { type StraightLine, straightLine } from '../regression.ts';

/** Whether difference and spread depend on the size of what is measured. */
export interface Proportional {
  /** Difference on the mean of both methods. A slope also arises where the methods err unequally. */
  readonly line: StraightLine;
  /** Pearson's r of |difference - bias| with the mean, and its two-sided p: the spread grows with size. */
  readonly spread: { readonly r: number; readonly p: number };
  /** Limits that follow the mean: b0 + b1 A +- 2.46 (c0 + c1 A). */
  readonly limits: { readonly b0: number; readonly b1: number; readonly c0: number; readonly c1: number };
}

/** 1.96 sqrt(pi / 2): from the mean of absolute residuals of a normal distribution to its 95 % limits. */
export const absoluteToLimits = 1.96 * Math.sqrt(Math.PI / 2);

/**
 * Regression of the difference on the mean, and of the absolute residuals on the mean.
 *
 * @returns `too-few-values` under three pairs, `no-spread` where all means are equal
 * Sources: Bland & Altman 1999, Stat Methods Med Res 8:135-160; Atkinson & Nevill 1998, Sports Med 26:217-238.
 */
export function proportional(first: readonly number[], second: readonly number[]): Outcome<Proportional> {
  if (first.length < 3) return lack('too-few-values');
  const differences = first.map((value, i) => value - (second[i] as number));
  const means = first.map((value, i) => (value + (second[i] as number)) / 2);
  const line = straightLine(means, differences);
  if (line === undefined) return lack('no-spread');
  const bias = meanOf(differences);
  const about = straightLine(
    means,
    differences.map((difference) => Math.abs(difference - bias)),
  ) as StraightLine;
  const residuals = straightLine(
    means,
    differences.map((difference, i) => Math.abs(difference - line.intercept - line.slope * (means[i] as number))),
  ) as StraightLine;
  const df = first.length - 2;
  const t = (about.r * Math.sqrt(df)) / Math.sqrt(Math.max(0, 1 - about.r ** 2));
  return have({
    line,
    spread: { r: about.r, p: studentT.twoSided(t, df) },
    limits: { b0: line.intercept, b1: line.slope, c0: residuals.intercept, c1: residuals.slope },
  });
}
