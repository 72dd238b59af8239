import type { TrialContext } from '../../analysis/trial-context.ts';
import { trapezoid } from '../../signal/index.ts';
import { bothSides, found, later, none, refusal } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { impulseSource, impulseTimes, sideLetter, sides, sideTitle } from '../times.ts';

function sideImpulse(trial: TrialContext, side: 'left' | 'right', milliseconds: number): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const both = bothSides(trial.forces);
  if (!both.ok) return none(both.reason);
  const start = trial.onset.value.index;
  const end = later(trial, start, milliseconds);
  const refused = refusal(trial, start, end);
  if (refused) return none(refused);
  const value = trapezoid(both.value[side], start, end) / trial.forces.sampleRate;
  return found(trial, value, 'N.s', { interval: { start, end } });
}

/** Gross impulse of each side from the onset of the sum. */
export const sideImpulseMetrics: readonly MetricDefinition[] = sides.flatMap((side) =>
  impulseTimes.map((milliseconds) => ({
    id: `${side}_impulse_0_${milliseconds}`,
    version: 1,
    unit: 'N.s',
    title: `${sideTitle[side]} impulse 0 to ${milliseconds} ms`,
    formula: `integral of ${sideLetter[side]} from o to o + ${milliseconds} ms`,
    source: impulseSource,
    dependsOnOnset: true,
    better: 'higher' as const,
    rate: true,
    compute: (trial: TrialContext) => sideImpulse(trial, side, milliseconds),
  })),
);
