import type { TrialContext } from '../../analysis/trial-context.ts';
import { bodyMass, found, none } from '../measuring.ts';
import type { Measured, MetricDefinition, MetricEvidence } from '../metric.ts';

const source = 'Weight is mass times the local acceleration of free fall (ISO 80000-4)';

/** Where W was read from the curve, when it was. */
const evidence = (trial: TrialContext, terms: MetricEvidence['terms'] & {}): MetricEvidence => {
  const { bodyWeight, events } = trial;
  return bodyWeight.ok && bodyWeight.value.from === 'baseline' && events.baseline.ok
    ? { interval: { start: events.baseline.value.start, end: events.baseline.value.end }, terms }
    : { terms };
};

function weight(trial: TrialContext): Measured {
  if (!trial.bodyWeight.ok) return none(trial.bodyWeight.reason);
  const { value, unit } = trial.bodyWeight.value;
  return found(trial, value, 'N', evidence(trial, [{ name: 'body weight', value, unit }]));
}

function mass(trial: TrialContext): Measured {
  if (!trial.bodyWeight.ok) return none(trial.bodyWeight.reason);
  const kilograms = bodyMass(trial);
  if (!kilograms.ok) return none(kilograms.reason);
  const { value, unit } = trial.bodyWeight.value;
  const terms = [
    { name: 'body weight', value, unit },
    { name: 'g', value: trial.gravity, unit: 'm/s2' },
  ];
  return found(trial, kilograms.value, 'kg', evidence(trial, terms));
}

/** Body weight and body mass of a trial, as weighed, given or read from the baseline. */
export const bodyWeightMetrics: readonly MetricDefinition[] = [
  {
    id: 'body_weight',
    version: 1,
    unit: 'N',
    title: 'Body weight',
    formula: 'W',
    source,
    dependsOnOnset: false,
    better: 'neither',
    rate: false,
    compute: weight,
  },
  {
    id: 'body_mass',
    version: 1,
    unit: 'kg',
    title: 'Body mass',
    formula: 'W / g',
    source,
    dependsOnOnset: false,
    better: 'neither',
    rate: false,
    compute: mass,
  },
];
