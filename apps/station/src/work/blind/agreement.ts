import type { BlindPair } from '@sthene/contract';
import type { Verdict } from '@sthene/core';
import { kappa, limitsOfAgreement } from '@sthene/core/stats';

/** What somebody said of a trial; onset as a sample index. */
export interface Reading {
  readonly onset?: number;
  readonly verdict: Verdict;
  readonly sampleRate: number;
}

const verdicts: readonly Verdict[] = ['counts', 'look-again', 'repeat'];

/** Two readers of the same trials: onsets by limits of agreement in ms (second minus first), verdicts by kappa. */
export function agreementOf(
  first: readonly (Reading | undefined)[],
  second: readonly (Reading | undefined)[],
): Omit<BlindPair, 'first' | 'second'> {
  const both = first.flatMap((one, i) => {
    const other = second[i];
    return one === undefined || other === undefined ? [] : [[one, other] as const];
  });
  const placed = both.filter(([a, b]) => a.onset !== undefined && b.onset !== undefined);
  const differences = placed.map(([a, b]) => (1000 * ((b.onset as number) - (a.onset as number))) / a.sampleRate);
  const limits = limitsOfAgreement(differences);
  const counts = verdicts.map((row) =>
    verdicts.map((column) => both.filter(([a, b]) => a.verdict === row && b.verdict === column).length),
  );
  const found = kappa(counts);
  const alike = both.filter(([a, b]) => a.verdict === b.verdict).length;
  return {
    n: placed.length,
    oneOnly: both.filter(([a, b]) => (a.onset === undefined) !== (b.onset === undefined)).length,
    ...(limits.ok
      ? {
          bias: limits.value.bias,
          limits: { low: limits.value.lower.value, high: limits.value.upper.value },
        }
      : { reason: limits.reason, ...(limits.reason === 'no-spread' ? { same: differences[0] } : {}) }),
    ...(differences.length === 0
      ? {}
      : { within10: differences.filter((ms) => Math.abs(ms) <= 10).length / differences.length }),
    judged: both.length,
    ...(both.length === 0 ? {} : { alike: alike / both.length }),
    ...(found.ok ? { kappa: { value: found.value.kappa, standardError: found.value.standardError } } : {}),
  };
}
