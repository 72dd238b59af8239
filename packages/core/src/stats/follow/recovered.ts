import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf } from '../../signal/index.ts';
import { studentT } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import type { ErrorOfTest } from '../reliability/index.ts';

/** Sessions before an injury that make the value to come back to: the newest so many. */
export const sessionsBefore = 3;

/**
 * How much of a value from before an injury is back, in per cent of it, with its interval: 100 exp(d / 100), d = 100 ln(now) - mean of
 * 100 ln(before), SE = TE sqrt(1 + 1/n), t on the error's degrees of freedom.
 *
 * It is the limb's own value that is held against; the other limb says nothing of it, for both lose strength.
 *
 * @param before values of the sessions before the injury, in the unit; the newest three are used
 * @param error between-session error of 100 ln x
 * @returns `too-few-values` without one before, `not-positive` for a value of zero or less
 * Source: the interval of a change in logs, Hopkins 2000, Sports Med 30:1-15; a limb's own value before the injury as the reference:
 * Wellsandt et al. 2017, J Orthop Sports Phys Ther 47:334-338 (from memory).
 */
export function recovered(
  now: number,
  before: readonly number[],
  error: ErrorOfTest,
  level = usualLevel,
): Outcome<Estimate> {
  const used = before.slice(-sessionsBefore);
  if (used.length === 0) return lack('too-few-values');
  if (now <= 0 || used.some((value) => value <= 0)) return lack('not-positive');
  const logs = (value: number) => 100 * Math.log(value);
  const difference = logs(now) - meanOf(used.map(logs));
  const half = studentT.quantile(upperProbability(level), error.df) * error.value * Math.sqrt(1 + 1 / used.length);
  const percent = (d: number) => 100 * Math.exp(d / 100);
  return have(estimate(percent(difference), percent(difference - half), percent(difference + half), level));
}
