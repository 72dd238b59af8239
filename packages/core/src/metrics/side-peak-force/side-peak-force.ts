import type { TrialContext } from '../../analysis/trial-context.ts';
import { bothSides, found, none, refusalOfPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { sideLetter, sides, sideTitle } from '../times.ts';

function sidePeakForce(trial: TrialContext, side: 'left' | 'right'): Measured {
  const both = bothSides(trial.forces);
  if (!both.ok) return none(both.reason);
  const refused = refusalOfPeak(trial);
  if (refused) return none(refused);
  const samples = both.value[side];
  const { halfRise, end } = trial.events;
  let at = halfRise + 1;
  for (let i = at + 1; i <= end; i++) if ((samples[i] as number) > (samples[at] as number)) at = i;
  const force = samples[at] as number;
  return found(trial, force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: side }] });
}

/** Each side's own largest force, which may lie at another instant than the summed peak. */
export const sidePeakForceMetrics: readonly MetricDefinition[] = sides.map((side) => ({
  id: `${side}_peak_force`,
  version: 1,
  unit: 'N',
  title: `${sideTitle[side]} peak force`,
  formula: `largest ${sideLetter[side]} in (r, e]`,
  source: 'Bishop et al. 2018, Strength Cond J 40(4):1-6',
  dependsOnOnset: false,
  better: 'higher',
  rate: false,
  compute: (trial) => sidePeakForce(trial, side),
}));
