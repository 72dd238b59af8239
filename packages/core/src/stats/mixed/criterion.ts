import { Matrix } from 'ml-matrix';
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
  const xhx = products.xx.clone();
  const xhy = products.xy.clone();
  let yhy = products.yy;
  let logDeterminants = 0;
  for (const { zz, zx, zy } of groups) {
    const l = factor(theta, zz.rows);
    const lt = l.transpose();
    const m = cholesky(Matrix.eye(zz.rows).add(lt.mmul(zz).mmul(l)));
    const u = lt.mmul(zx);
    const v = lt.mmul(zy);
    const solvedU = m.solve(u);
    const solvedV = m.solve(v);
    const ut = u.transpose();
    xhx.sub(ut.mmul(solvedU));
    xhy.sub(ut.mmul(solvedV));
    yhy -= v.transpose().mmul(solvedV).get(0, 0);
    logDeterminants += logDeterminant(m);
  }
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
