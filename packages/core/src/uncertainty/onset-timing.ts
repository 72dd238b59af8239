import { withOnset } from '../analysis/context.ts';
import type { TrialContext } from '../analysis/trial-context.ts';
import type { MetricDefinition } from '../metrics/metric.ts';
import { have, lack, type Outcome } from '../outcome.ts';

/** The two onsets whose values are half-differenced: B + 3 S and B + 5 S. */
const rules = ['three-sd', 'five-sd'] as const;

/**
 * Half the change of each metric between the onsets at B + 3 S and at B + 5 S, in the metric's unit.
 *
 * A late onset is a bias, not a random part: it stands beside the combined uncertainty and is never added to it.
 *
 * @returns one function for all metrics of a trial; its reason is that of the onset or value that is missing
 */
export function onsetTiming(trial: TrialContext): (metric: MetricDefinition) => Outcome<number> {
  const onsets = trial.onsets();
  const [early, late] = rules.map((rule) => {
    const onset = onsets[rule] ?? lack('not-defined');
    return onset.ok ? have(withOnset(trial, onset)) : onset;
  }) as [Outcome<TrialContext>, Outcome<TrialContext>];
  return (metric) => {
    if (!early.ok) return early;
    if (!late.ok) return late;
    const [one, other] = [metric.compute(early.value), metric.compute(late.value)];
    if (!('value' in one)) return lack(one.reason);
    if (!('value' in other)) return lack(other.reason);
    return have(Math.abs(other.value - one.value) / 2);
  };
}
