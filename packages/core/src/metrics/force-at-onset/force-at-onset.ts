import type { TrialContext } from '../../analysis/trial-context.ts';
import { valueAt } from '../../signal/index.ts';
import { found, none, refusal } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

function forceAtOnset(trial: TrialContext): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const { index, threshold, thresholdUnit } = trial.onset.value;
  const refused = refusal(trial, index, index);
  if (refused) return none(refused);
  const force = valueAt(trial.forces.total, index);
  return found(trial, force, 'N', {
    interval: { start: index, end: index },
    points: [{ at: index, force, of: 'total' }],
    terms: [{ name: 'threshold', value: threshold, unit: thresholdUnit }],
  });
}

/** Force at the onset, from which every rate that starts at the onset is counted. */
export const forceAtOnsetMetric: MetricDefinition = {
  id: 'force_at_onset',
  version: 1,
  unit: 'N',
  title: 'Force at onset',
  formula: 'F(o)',
  source: "Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473",
  dependsOnOnset: true,
  better: 'neither',
  rate: true,
  compute: forceAtOnset,
};
