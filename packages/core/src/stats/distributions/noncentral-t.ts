import betainc from '@stdlib/math-base-special-betainc';
import gammaln from '@stdlib/math-base-special-gammaln';
import { normal } from './distributions.ts';

/** Terms beyond the largest that are smaller than this are left out. */
const negligible = 1e-18;

/**
 * P(T <= t) of the noncentral t distribution with `df` degrees of freedom and noncentrality `ncp`.
 *
 * For t >= 0: Phi(-ncp) + 1/2 sum over j of p_j I_x(j + 1/2, df/2) + q_j I_x(j + 1, df/2), x = t^2 / (t^2 + df),
 * p_j = exp(-L) L^j / j!, q_j = ncp exp(-L) L^j / (sqrt 2 Gamma(j + 3/2)), L = ncp^2 / 2; for t < 0 by symmetry. The sum begins at
 * its largest term and goes both ways, so that a large noncentrality does not underflow. Good to about 1e-10 in the body of the
 * distribution; in tails below 1e-10 digits are lost.
 *
 * Source: Lenth 1989, Algorithm AS 243, Applied Statistics 38:185-189.
 */
export function noncentralTBelow(t: number, df: number, ncp: number): number {
  if (t < 0) return 1 - noncentralTBelow(-t, df, -ncp);
  const below = normal.below(-ncp);
  if (t === 0) return below;
  const x = (t * t) / (t * t + df);
  const half = (ncp * ncp) / 2;
  if (half === 0) return below + betainc(x, 0.5, df / 2) / 2;
  const sign = Math.sign(ncp);
  const term = (j: number): number => {
    const p = Math.exp(-half + j * Math.log(half) - gammaln(j + 1));
    const q = sign * Math.exp(-half + (j + 0.5) * Math.log(half) - gammaln(j + 1.5));
    return p * betainc(x, j + 0.5, df / 2) + q * betainc(x, j + 1, df / 2);
  };
  const middle = Math.floor(half);
  let sum = term(middle);
  // Downwards the terms may grow again: their beta functions do.
  for (let j = middle - 1; j >= 0; j--) sum += term(j);
  for (let j = middle + 1; ; j++) {
    const one = term(j);
    sum += one;
    if (Math.abs(one) < negligible) break;
  }
  return Math.min(1, Math.max(0, below + sum / 2));
}

/** t with P(T <= t) = p, by halving an interval until no double lies between its ends or 200 times. */
export function noncentralTQuantile(p: number, df: number, ncp: number): number {
  let width = 1;
  let low = ncp - width;
  let high = ncp + width;
  while (noncentralTBelow(low, df, ncp) > p) {
    width *= 2;
    low = ncp - width;
  }
  width = 1;
  while (noncentralTBelow(high, df, ncp) < p) {
    width *= 2;
    high = ncp + width;
  }
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (noncentralTBelow(middle, df, ncp) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
