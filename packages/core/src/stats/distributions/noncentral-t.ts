import betainc from '@stdlib/math-base-special-betainc';
import gammaln from '@stdlib/math-base-special-gammaln';
import { normal } from './distributions.ts';
import { whereItIs } from './root.ts';

/** Weights below this are left out: a term is never larger than its two weights. */
const negligible = 1e-19;

/**
 * P(T <= t) of the noncentral t distribution with `df` degrees of freedom and noncentrality `ncp`.
 *
 * For t >= 0: Phi(-ncp) + 1/2 sum over j of p_j I_x(j + 1/2, df/2) + q_j I_x(j + 1, df/2), x = t^2 / (t^2 + df),
 * p_j = exp(-L) L^j / j!, q_j = ncp exp(-L) L^j / (sqrt 2 Gamma(j + 3/2)), L = ncp^2 / 2; for t < 0 by symmetry. The terms
 * run from where their weights count no more down past the largest, so that a large noncentrality does not underflow. Good to about 1e-10
 * in the body of the distribution; in tails below 1e-10 digits are lost.
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
  const b = df / 2;
  const weights = (j: number): readonly [number, number] => [
    Math.exp(-half + j * Math.log(half) - gammaln(j + 1)),
    Math.exp(-half + (j + 0.5) * Math.log(half) - gammaln(j + 1.5)),
  ];
  const counts = ([p, q]: readonly [number, number]) => p > negligible || q > negligible;
  const middle = Math.floor(half);
  let last = middle + 1;
  while (counts(weights(last))) last++;
  // From the far end down I_x(a, b) = I_x(a + 1, b) + x^a (1 - x)^b / (a B(a, b)): all parts are positive, so nothing is lost.
  const step = (a: number) =>
    Math.exp(gammaln(a + b) - gammaln(a + 1) - gammaln(b) + a * Math.log(x) + b * Math.log1p(-x));
  let one = betainc(x, last + 0.5, b);
  let other = betainc(x, last + 1, b);
  let sum = 0;
  for (let j = last; j >= 0; j--) {
    const both = weights(j);
    if (j < middle && !counts(both)) break;
    sum += both[0] * one + sign * both[1] * other;
    one += step(j - 0.5);
    other += step(j);
  }
  return Math.min(1, Math.max(0, below + sum / 2));
}

/** t with P(T <= t) = p. */
export function noncentralTQuantile(p: number, df: number, ncp: number): number {
  let width = 1;
  while (noncentralTBelow(ncp - width, df, ncp) > p || noncentralTBelow(ncp + width, df, ncp) < p) width *= 2;
  return whereItIs(p, (t) => noncentralTBelow(t, df, ncp), ncp - width, ncp + width);
}
