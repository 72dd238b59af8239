import type { TrialContext } from '../../analysis/trial-context.ts';
import { valueAt } from '../../signal/index.ts';
import { found, none, refusalWithPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

function averageRate(trial: TrialContext): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const onset = trial.onset.value.index;
  const { peak } = trial.events;
  const { unit, sampleRate, total } = trial.forces;
  const refused = refusalWithPeak(trial, onset, peak.index);
  if (refused) return none(refused);
  const before = valueAt(total, onset);
  const seconds = (peak.index - onset) / sampleRate;
  return found(trial, (peak.force - before) / seconds, 'N/s', {
    interval: { start: onset, end: peak.index },
    points: [
      { at: onset, force: before, of: 'total' },
      { at: peak.index, force: peak.force, of: 'total' },
    ],
    terms: [
      { name: 'change of force', value: peak.force - before, unit },
      { name: 'time to peak', value: seconds, unit: 's' },
    ],
  });
}

/** Mean slope from the onset to the peak. */
export const rfdAverageMetric: MetricDefinition = {
  id: 'rfd_average',
  version: 1,
  unit: 'N/s',
  title: 'Average RFD',
  formula: '(F_p - F(o)) / time to peak',
  source: 'Haff et al. 2015, J Strength Cond Res 29(2):386-395 (there peak force over time to peak)',
  dependsOnOnset: true,
  better: 'higher',
  rate: true,
  compute: averageRate,
};
