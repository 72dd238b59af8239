import { have, lack, type Outcome } from '../outcome.ts';
import { meanOf } from '../signal/index.ts';

/** One person weighed on each plate in turn. */
export interface BalanceFigures {
  readonly plates: readonly { readonly plate: string; readonly weight: number }[];
  /** Largest less smallest weight, % of their mean. */
  readonly difference: number;
}

/**
 * Balance of plates: the same person stands on one, then on the other: |W_A - W_B| / W, %, W their mean.
 *
 * @param weights mean weight on each plate, N
 * @returns `too-few-values` under two plates, `not-positive` where nobody stood
 */
export function balanceFigures(
  weights: readonly { readonly plate: string; readonly weight: number }[],
): Outcome<BalanceFigures> {
  if (weights.length < 2) return lack('too-few-values');
  const values = weights.map(({ weight }) => weight);
  if (values.some((value) => value <= 0)) return lack('not-positive');
  return have({ plates: weights, difference: (100 * (Math.max(...values) - Math.min(...values))) / meanOf(values) });
}
