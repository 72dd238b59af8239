import { Matrix } from 'ml-matrix';
import { groupSums } from './group-sums.ts';
import type { Products } from './groups.ts';
import { cholesky, logDeterminant } from './linear.ts';

/** The model at given relative random factors, everything else at its best. */
export interface Profile {
  /** -2 restricted log likelihood at the best residual variance. */
  readonly criterion: number;
  /** Parts of it that do not hold the residual variance, and the residual sum of squares. */
  readonly logDeterminants: number;
  readonly squares: number;
  readonly beta: Matrix;
  /** (X' H^-1 X)^-1; times the residual variance it is the covariance of the fixed effects. */
  readonly unscaled: Matrix;
}

/**
 * Profiled restricted likelihood. With H = I + Z L L' Z' group by group, M = I + L' Z'Z L: log|H| = log|M|, H^-1 = I - Z L M^-1 L' Z';
 * criterion = sum log|M| + log|X' H^-1 X| + (n - p) (1 + log(2 pi r^2 / (n - p))).
 *
 * @returns undefined where the fixed effects cannot be told apart
 * Source: Bates, Maechler, Bolker & Walker 2015, J Stat Softw 67(1):1-48.
 */
export function profileAt(products: Products, theta: readonly number[]): Profile | undefined {
  const { n, p, groups, factor } = products;
  const taken = groupSums(groups, p, (size) => factor(theta, size));
  if (taken === undefined) return undefined;
  const xhx = Matrix.sub(products.xx, Matrix.from1DArray(p, p, taken.xx));
  const xhy = Matrix.sub(products.xy, Matrix.columnVector(taken.xy));
  const yhy = products.yy - taken.yy;
  let { logDeterminant: logDeterminants } = taken;
  const whole = cholesky(xhx);
  if (!whole.isPositiveDefinite()) return undefined;
  const beta = whole.solve(xhy);
  const squares = Math.max(0, yhy - beta.transpose().mmul(xhy).get(0, 0));
  logDeterminants += logDeterminant(whole);
  const df = n - p;
  return {
    criterion: logDeterminants + df * (1 + Math.log((2 * Math.PI * squares) / df)),
    ...{ logDeterminants, squares, beta },
    unscaled: whole.solve(Matrix.eye(p)),
  };
}

/** -2 restricted log likelihood at a residual SD of its own. */
export const criterionAt = ({ logDeterminants, squares }: Profile, df: number, sigma: number): number =>
  logDeterminants + df * Math.log(2 * Math.PI * sigma * sigma) + squares / (sigma * sigma);
