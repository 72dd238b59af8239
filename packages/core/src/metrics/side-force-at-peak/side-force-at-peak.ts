import type { TrialContext } from '../../analysis/trial-context.ts';
import { bothSides, found, none, refusalOfPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { sideLetter, sides, sideTitle } from '../times.ts';

function sideForceAtPeak(trial: TrialContext, side: 'left' | 'right'): Measured {
  const both = bothSides(trial.forces);
  if (!both.ok) return none(both.reason);
  const refused = refusalOfPeak(trial);
  if (refused) return none(refused);
  const at = trial.events.peak.index;
  const force = both.value[side][at] as number;
  return found(trial, force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: side }] });
}

/** What each side gives at the instant of the summed peak. */
export const sideForceAtPeakMetrics: readonly MetricDefinition[] = sides.map((side) => ({
  id: `${side}_force_at_peak`,
  version: 1,
  unit: 'N',
  title: `${sideTitle[side]} force at peak`,
  formula: `${sideLetter[side]} at p`,
  source: 'Bishop et al. 2018, Strength Cond J 40(4):1-6',
  dependsOnOnset: false,
  better: 'higher',
  rate: false,
  compute: (trial) => sideForceAtPeak(trial, side),
}));
