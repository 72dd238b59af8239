import type { TrialContext } from '../../analysis/trial-context.ts';
import { valueAt } from '../../signal/index.ts';
import { found, later, none, refusalWithPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

function relativeRate(trial: TrialContext): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const start = trial.onset.value.index;
  const end = later(trial, start, 200);
  const refused = refusalWithPeak(trial, start, end);
  if (refused) return none(refused);
  const { peak } = trial.events;
  const { total, unit } = trial.forces;
  const before = valueAt(total, start);
  const after = valueAt(total, end);
  const rate = (after - before) / 0.2;
  return found(trial, rate / (peak.force - before), '1/s', {
    interval: { start, end },
    points: [
      { at: start, force: before, of: 'total' },
      { at: end, force: after, of: 'total' },
      { at: peak.index, force: peak.force, of: 'total' },
    ],
    terms: [
      { name: 'RFD 0 to 200 ms', value: rate, unit: `${unit}/s` },
      { name: 'rise from onset to peak', value: peak.force - before, unit },
    ],
  });
}

/** Rate of force development as a share of the rise from the onset to the peak, per second. */
export const rfdRelativeMetric: MetricDefinition = {
  id: 'rfd_0_200_relative',
  version: 1,
  unit: '1/s',
  title: 'RFD 0 to 200 ms, share of rise',
  formula: 'rfd_0_200 / (F_p - F(o))',
  source: 'Maffiuletti et al. 2016, Eur J Appl Physiol 116:1091-1116 (normalised RFD, from memory)',
  dependsOnOnset: true,
  better: 'higher',
  rate: true,
  compute: relativeRate,
};
