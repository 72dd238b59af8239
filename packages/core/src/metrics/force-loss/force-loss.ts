import type { TrialContext } from '../../analysis/trial-context.ts';
import { meanOf, samplesIn } from '../../signal/index.ts';
import { found, none, refusalWithPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

const windowSeconds = 0.5;
const shareOfPeak = 0.9;

function forceLoss(trial: TrialContext): Measured {
  const { forces, events } = trial;
  const { peak } = events;
  const width = samplesIn(windowSeconds, forces.sampleRate);
  if (width < 1) return none('window-too-short');
  const level = shareOfPeak * peak.force;
  let last = events.end;
  while (last > peak.index && (forces.total[last] as number) < level) last--;
  if (last <= peak.index) return none('interval-past-end');
  const start = last - width;
  const refused = refusalWithPeak(trial, start, last - 1);
  if (refused) return none(refused);
  const mean = meanOf(forces.total, start, last);
  return found(trial, 100 * (1 - mean / peak.force), '%', {
    interval: { start, end: last },
    points: [{ at: peak.index, force: peak.force, of: 'total' }],
    terms: [
      { name: 'mean of the last 0.5 s', value: mean, unit: forces.unit },
      { name: 'peak force', value: peak.force, unit: forces.unit },
    ],
  });
}

/** How much of the peak was lost by the end of the pull. */
export const forceLossMetric: MetricDefinition = {
  id: 'force_loss',
  version: 1,
  unit: '%',
  title: 'Force lost by the end',
  formula: '100 (1 - mean of F over the 0.5 s before the last index with F >= 0.9 F_p in (p, e], / F_p)',
  source: 'Definition of this program',
  dependsOnOnset: false,
  better: 'lower',
  rate: false,
  compute: forceLoss,
};
