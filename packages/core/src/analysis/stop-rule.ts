import { headlineMetric } from '../facts/facts.ts';
import type { StopRules } from '../protocols/running.ts';
import { counts, type SetTrial } from './trial-set.ts';

/**
 * What speaks for stopping: so many efforts in a row that do not count, or a peak (in jump tests: a headline value) far below the best
 * of the day.
 */
export type StopReason = 'rejected-in-a-row' | 'peak-has-fallen';

/**
 * What the stop rules say after the last maximal effort of a set; undefined where nothing speaks for stopping. Submaximal efforts
 * in between neither help nor harm.
 *
 * @param trials in the order pulled
 */
export function stopReason(trials: readonly SetTrial[], rules: StopRules): StopReason | undefined {
  const maximal = trials.filter((trial) => trial.maximal);
  const lastCounting = maximal.findLastIndex(counts);
  const rejected = maximal.length - 1 - lastCounting;
  if (rejected >= rules.rejectedInARow) return 'rejected-in-a-row';
  if (rules.fall === undefined || rejected > 0) return undefined;
  const peaks = maximal.filter(counts).flatMap(({ result }) => {
    const peak = result.metrics[headlineMetric(result.test)];
    return peak !== undefined && 'value' in peak ? [peak.value] : [];
  });
  const last = peaks.at(-1);
  const best = peaks.reduce((most, value) => Math.max(most, value), 0);
  return last !== undefined && last < (1 - rules.fall) * best ? 'peak-has-fallen' : undefined;
}
