import type { TrialContext } from '../../analysis/trial-context.ts';
import { valueAt } from '../../signal/index.ts';
import { found, later, none, refusal } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { bandSource, forceTimes } from '../times.ts';

/** Bands that do not start at the onset, in milliseconds after it. */
const bands = [
  [50, 100],
  [100, 150],
  [100, 200],
  [150, 200],
  [200, 250],
] as const;

function rate(trial: TrialContext, a: number, b: number): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const start = later(trial, trial.onset.value.index, a);
  const end = later(trial, trial.onset.value.index, b);
  const refused = refusal(trial, start, end);
  if (refused) return none(refused);
  const before = valueAt(trial.forces.total, start);
  const after = valueAt(trial.forces.total, end);
  const { unit } = trial.forces;
  return found(trial, (after - before) / ((b - a) / 1000), 'N/s', {
    interval: { start, end },
    points: [
      { at: start, force: before, of: 'total' },
      { at: end, force: after, of: 'total' },
    ],
    terms: [
      { name: 'change of force', value: after - before, unit },
      { name: 'time', value: (b - a) / 1000, unit: 's' },
    ],
  });
}

const define = (a: number, b: number): MetricDefinition => ({
  id: `rfd_${a}_${b}`,
  version: 1,
  unit: 'N/s',
  title: `RFD ${a} to ${b} ms`,
  formula: a === 0 ? `(F(o + ${b} ms) - F(o)) / ${b} ms` : `(F(o + ${b} ms) - F(o + ${a} ms)) / ${b - a} ms`,
  source: bandSource,
  dependsOnOnset: true,
  better: 'higher',
  rate: true,
  compute: (trial) => rate(trial, a, b),
});

/** Rate of force development between two fixed times after the onset. */
export const rfdIntervalMetrics: readonly MetricDefinition[] = [
  ...forceTimes.map((t) => define(0, t)),
  ...bands.map(([a, b]) => define(a, b)),
];
