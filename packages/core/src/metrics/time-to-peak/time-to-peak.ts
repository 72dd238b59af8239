import type { TrialContext } from '../../analysis/trial-context.ts';
import { found, none, refusalWithPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

function timeToPeak(trial: TrialContext): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const onset = trial.onset.value.index;
  const { peak } = trial.events;
  const refused = refusalWithPeak(trial, onset, peak.index);
  if (refused) return none(refused);
  return found(trial, (peak.index - onset) / trial.forces.sampleRate, 's', {
    interval: { start: onset, end: peak.index },
    points: [{ at: peak.index, force: peak.force, of: 'total' }],
  });
}

/** Time from the onset to the peak force. */
export const timeToPeakMetric: MetricDefinition = {
  id: 'time_to_peak',
  version: 1,
  unit: 's',
  title: 'Time to peak force',
  formula: '(p - o) / fs',
  source: 'Haff et al. 2015, J Strength Cond Res 29(2):386-395',
  dependsOnOnset: true,
  better: 'neither',
  rate: true,
  compute: timeToPeak,
};
