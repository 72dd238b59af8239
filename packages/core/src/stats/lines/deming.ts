import { have, lack, type Outcome } from '../../outcome.ts';
import { sdOf } from '../../signal/index.ts';
import { studentT } from '../distributions/index.ts';
import { estimate, upperProbability, usualLevel } from '../interval.ts';
import { centred } from '../regression.ts';
import type { MethodLine } from './line.ts';

/** A Deming line with the standard errors of its jackknife. */
export interface DemingLine extends MethodLine {
  readonly slopeError: number;
  readonly interceptError: number;
}

/**
 * Deming's line: b = (syy - q sxx + sqrt((syy - q sxx)^2 + 4 q sxy^2)) / (2 sxy), q the ratio of error variances; intervals by the
 * jackknife with t, df n - 2.
 *
 * @param ratio variance of the errors in y over that of the errors in x; some programs ask for its inverse
 * @returns `too-few-values` under four pairs, `no-spread` where x and y do not go together
 * Source: Linnet 1993, Clin Chem 39:424-432.
 */
export function demingLine(
  x: readonly number[],
  y: readonly number[],
  ratio: number,
  level = usualLevel,
): Outcome<DemingLine> {
  const n = x.length;
  if (n < 4) return lack('too-few-values');
  const whole = fit(x, y, ratio);
  if (whole === undefined) return lack('no-spread');
  const slopes: number[] = [];
  const intercepts: number[] = [];
  for (let i = 0; i < n; i++) {
    const without = fit(x.toSpliced(i, 1), y.toSpliced(i, 1), ratio);
    if (without === undefined) return lack('no-spread');
    slopes.push(n * whole.slope - (n - 1) * without.slope);
    intercepts.push(n * whole.intercept - (n - 1) * without.intercept);
  }
  const t = studentT.quantile(upperProbability(level), n - 2);
  const slopeError = sdOf(slopes) / Math.sqrt(n);
  const interceptError = sdOf(intercepts) / Math.sqrt(n);
  const about = (value: number, error: number) => estimate(value, value - t * error, value + t * error, level);
  return have({
    n,
    slope: about(whole.slope, slopeError),
    intercept: about(whole.intercept, interceptError),
    ...{ slopeError, interceptError },
  });
}

function fit(x: readonly number[], y: readonly number[], ratio: number) {
  const { mx, my, sxx, syy, sxy } = centred(x, y);
  if (sxy === 0) return undefined;
  const u = syy - ratio * sxx;
  const slope = (u + Math.sqrt(u * u + 4 * ratio * sxy * sxy)) / (2 * sxy);
  return { slope, intercept: my - slope * mx };
}
