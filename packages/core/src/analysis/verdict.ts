import type { CheckResult } from '../checks/check.ts';
import type { Outcome, Reason } from '../outcome.ts';
import type { Onset } from './events.ts';
import type { Verdict } from './result.ts';

/**
 * The verdict on a trial: `repeat` when a check fails or there is no effort to measure; `look-again` when a check warns or the
 * onset has a reason; `counts` otherwise. A check that was not judged neither helps nor harms.
 */
export function verdictOf(
  checks: Readonly<Record<string, CheckResult>>,
  onset: Outcome<Onset>,
  reason: Reason | undefined,
): Verdict {
  if (reason !== undefined) return 'repeat';
  let verdict: Verdict = onset.ok ? 'counts' : 'look-again';
  for (const id in checks) {
    const status = checks[id]?.status;
    if (status === 'fail') return 'repeat';
    if (status === 'warn') verdict = 'look-again';
  }
  return verdict;
}
