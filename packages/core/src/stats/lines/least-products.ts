import { have, lack, type Outcome } from '../../outcome.ts';
import { fisherF } from '../distributions/index.ts';
import { estimate, usualLevel } from '../interval.ts';
import { centred } from '../regression.ts';
import type { MethodLine } from './line.ts';

/**
 * Ordinary least products (geometric mean) line: b = sign(r) s_y / s_x. Interval of the slope b (sqrt(B + 1) -+ sqrt B), B = (1 -
 * r^2) F(level; 1, n - 2) / (n - 2); of the intercept with the slope's limits.
 *
 * @returns `too-few-values` under three pairs, `no-spread` where either method always gives the same or r is 0
 * Source: Ludbrook 1997, Clin Exp Pharmacol Physiol 24:193-203; interval after Jolicoeur & Mosimann (both from memory).
 */
export function leastProducts(
  x: readonly number[],
  y: readonly number[],
  level = usualLevel,
): Outcome<MethodLine & { readonly r: number }> {
  const n = x.length;
  if (n < 3) return lack('too-few-values');
  const { mx, my, sxx, syy, sxy } = centred(x, y);
  if (sxx === 0 || syy === 0 || sxy === 0) return lack('no-spread');
  const r = sxy / Math.sqrt(sxx * syy);
  const slope = Math.sign(r) * Math.sqrt(syy / sxx);
  const b = (Math.max(0, 1 - r * r) * fisherF.quantile(level, 1, n - 2)) / (n - 2);
  const low = slope * (Math.sqrt(b + 1) - Math.sqrt(b));
  const high = slope * (Math.sqrt(b + 1) + Math.sqrt(b));
  const intercept = (by: number) => my - by * mx;
  return have({
    ...{ n, r },
    slope: estimate(slope, low, high, level),
    intercept: estimate(intercept(slope), intercept(low), intercept(high), level),
  });
}
