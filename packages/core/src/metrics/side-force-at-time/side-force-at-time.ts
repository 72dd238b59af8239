import type { TrialContext } from '../../analysis/trial-context.ts';
import { valueAt } from '../../signal/index.ts';
import { bothSides, found, later, none, refusal } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { forceTimes, sideLetter, sides, sideTitle, timePointSource } from '../times.ts';

function sideForceAt(trial: TrialContext, side: 'left' | 'right', milliseconds: number): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const both = bothSides(trial.forces);
  if (!both.ok) return none(both.reason);
  const at = later(trial, trial.onset.value.index, milliseconds);
  const refused = refusal(trial, at, at);
  if (refused) return none(refused);
  const force = valueAt(both.value[side], at);
  return found(trial, force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: side }] });
}

/** Force of each side at fixed times after the onset of the sum. */
export const sideForceAtTimeMetrics: readonly MetricDefinition[] = sides.flatMap((side) =>
  forceTimes.map((milliseconds) => ({
    id: `${side}_force_at_${milliseconds}`,
    version: 1,
    unit: 'N',
    title: `${sideTitle[side]} force at ${milliseconds} ms`,
    formula: `${sideLetter[side]}(o + ${milliseconds} ms)`,
    source: timePointSource,
    dependsOnOnset: true,
    better: 'higher' as const,
    rate: true,
    compute: (trial: TrialContext) => sideForceAt(trial, side, milliseconds),
  })),
);
