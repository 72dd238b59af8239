import { have, lack, type Outcome } from '../../outcome.ts';

/** Agreement of two readers on kinds, beyond chance. */
export interface Kappa {
  readonly n: number;
  readonly observed: number;
  readonly expected: number;
  readonly kappa: number;
  /** sqrt(po (1 - po) / (n (1 - pe)^2)), the simple form. */
  readonly standardError: number;
}

/**
 * Cohen's kappa of a square table of counts, rows the first reader's kinds, columns the second's.
 *
 * @returns `too-few-values` for an empty table, `no-spread` where both always say the same kind
 * Source: Cohen 1960, Educ Psychol Meas 20:37-46.
 */
export function kappa(counts: readonly (readonly number[])[]): Outcome<Kappa> {
  const n = counts.flat().reduce((sum, count) => sum + count, 0);
  if (n === 0) return lack('too-few-values');
  let observed = 0;
  let expected = 0;
  for (const [i, row] of counts.entries()) {
    const rowSum = row.reduce((sum, count) => sum + count, 0);
    const columnSum = counts.reduce((sum, other) => sum + (other[i] as number), 0);
    observed += (row[i] as number) / n;
    expected += (rowSum * columnSum) / (n * n);
  }
  if (expected >= 1) return lack('no-spread');
  return have({
    ...{ n, observed, expected },
    kappa: (observed - expected) / (1 - expected),
    standardError: Math.sqrt((observed * (1 - observed)) / (n * (1 - expected) ** 2)),
  });
}
