import type { TrialContext } from '../../analysis/trial-context.ts';
import { largestMean, samplesIn, touchesGap } from '../../signal/index.ts';
import { found, none } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

function bestMean(trial: TrialContext, milliseconds: number): Measured {
  const { forces, events } = trial;
  const width = samplesIn(milliseconds / 1000, forces.sampleRate);
  if (width < 1) return none('window-too-short');
  const first = events.halfRise + 1;
  const best = largestMean(forces.total, width, first, events.end + 1);
  if (best === undefined) return none('interval-past-end');
  // The largest of all windows is only known when every sample of (r, e] is.
  if (touchesGap(forces, first, events.end)) return none('gap-in-interval');
  return found(trial, best.mean, 'N', {
    interval: { start: best.start, end: best.start + width },
    terms: [{ name: 'samples', value: width, unit: '1' }],
  });
}

/** Largest mean force over a fifth of a second and over a second. */
export const bestMeanMetrics: readonly MetricDefinition[] = [200, 1000].map((milliseconds) => ({
  id: `best_mean_${milliseconds}`,
  version: 1,
  unit: 'N',
  title: milliseconds === 200 ? 'Best 0.2 s mean force' : 'Best 1 s mean force',
  formula: `largest mean of F over ${milliseconds} ms inside (r, e]`,
  source: 'Definition of this program; a mean is less sensitive to a single sample than the peak',
  dependsOnOnset: false,
  better: 'higher',
  rate: false,
  compute: (trial) => bestMean(trial, milliseconds),
}));
