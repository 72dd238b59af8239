import type { TrialContext } from '../../analysis/trial-context.ts';
import { meanOf, touchesGap } from '../../signal/index.ts';
import { bothSides, found, none } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

function standingShareRight(trial: TrialContext): Measured {
  const { baseline } = trial.events;
  if (!baseline.ok) return none(baseline.reason);
  const both = bothSides(trial.forces);
  if (!both.ok) return none(both.reason);
  const { start, end } = baseline.value;
  if (touchesGap(trial.forces, start, end - 1)) return none('gap-in-interval');
  const right = meanOf(both.value.right, start, end);
  const total = meanOf(trial.forces.total, start, end);
  return found(trial, (100 * right) / total, '%', {
    interval: { start, end },
    terms: [
      { name: 'mean right', value: right, unit: trial.forces.unit },
      { name: 'mean total', value: total, unit: trial.forces.unit },
    ],
  });
}

/** How much of the standing load rests on the right plate. */
export const standingShareMetric: MetricDefinition = {
  id: 'standing_share_right',
  version: 1,
  unit: '%',
  title: 'Standing load on the right',
  formula: '100 mean R / mean F over the baseline',
  source: 'Definition of this program',
  dependsOnOnset: false,
  better: 'neither',
  rate: false,
  compute: standingShareRight,
};
