import type { TrialContext } from '../../analysis/trial-context.ts';
import { trapezoid } from '../../signal/index.ts';
import { found, later, none, refusal } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { impulseSource, impulseTimes } from '../times.ts';

function impulse(trial: TrialContext, milliseconds: number, net: boolean): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  if (net && !trial.bodyWeight.ok) return none(trial.bodyWeight.reason);
  const start = trial.onset.value.index;
  const end = later(trial, start, milliseconds);
  const refused = refusal(trial, start, end);
  if (refused) return none(refused);
  const { total, sampleRate, unit } = trial.forces;
  const gross = trapezoid(total, start, end) / sampleRate;
  const interval = { start, end };
  if (!net || !trial.bodyWeight.ok) return found(trial, gross, 'N.s', { interval });
  // A constant integrates exactly, so subtracting its integral is the integral of F - W.
  const weight = trial.bodyWeight.value.value;
  return found(trial, gross - weight * (milliseconds / 1000), 'N.s', {
    interval,
    terms: [
      { name: 'gross impulse', value: gross, unit: `${unit}.s` },
      { name: 'body weight', value: weight, unit },
      { name: 'time', value: milliseconds / 1000, unit: 's' },
    ],
  });
}

const define = (milliseconds: number, net: boolean): MetricDefinition => ({
  id: `${net ? 'impulse_net' : 'impulse'}_0_${milliseconds}`,
  version: 1,
  unit: 'N.s',
  title: `${net ? 'Net impulse' : 'Impulse'} 0 to ${milliseconds} ms`,
  formula: `integral of ${net ? 'F - W' : 'F'} from o to o + ${milliseconds} ms`,
  source: impulseSource,
  dependsOnOnset: true,
  better: 'higher',
  rate: true,
  compute: (trial) => impulse(trial, milliseconds, net),
});

/** Gross and net impulse from the onset. */
export const impulseMetrics: readonly MetricDefinition[] = [
  ...impulseTimes.map((t) => define(t, false)),
  ...impulseTimes.map((t) => define(t, true)),
];
