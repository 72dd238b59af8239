import type { TrialContext } from '../../analysis/trial-context.ts';
import { bodyMass, found, none, refusalOfPeak } from '../measuring.ts';
import type { Measured, MetricDefinition, MetricEvidence } from '../metric.ts';

const source =
  'Haff et al. 2015, J Strength Cond Res 29(2):386-395; scaling: Jaric 2002, Sports Med 32(10):615-631 (from memory)';

const fixed = { version: 1, source, dependsOnOnset: false, better: 'higher', rate: false } as const;

const evidence = (trial: TrialContext, terms: MetricEvidence['terms'] & {}): MetricEvidence => {
  const { peak } = trial.events;
  return {
    interval: { start: peak.index, end: peak.index },
    points: [{ at: peak.index, force: peak.force, of: 'total' }],
    terms: [{ name: 'peak force', value: peak.force, unit: trial.forces.unit }, ...terms],
  };
};

function gross(trial: TrialContext): Measured {
  const refused = refusalOfPeak(trial);
  return refused ? none(refused) : found(trial, trial.events.peak.force, 'N', evidence(trial, []));
}

function net(trial: TrialContext): Measured {
  if (!trial.bodyWeight.ok) return none(trial.bodyWeight.reason);
  const refused = refusalOfPeak(trial);
  if (refused) return none(refused);
  const { value, unit } = trial.bodyWeight.value;
  return found(trial, trial.events.peak.force - value, 'N', evidence(trial, [{ name: 'body weight', value, unit }]));
}

/** Peak force less `minus`, per kilogram of body mass to the power of `exponent`. */
function scaled(trial: TrialContext, which: 'gross' | 'net', exponent?: number): Measured {
  const mass = bodyMass(trial);
  if (!trial.bodyWeight.ok) return none(trial.bodyWeight.reason);
  if (!mass.ok) return none(mass.reason);
  const refused = refusalOfPeak(trial);
  if (refused) return none(refused);
  const { value: weight, unit } = trial.bodyWeight.value;
  const force = which === 'net' ? trial.events.peak.force - weight : trial.events.peak.force;
  const terms = evidence(trial, [
    ...(which === 'net' ? [{ name: 'body weight', value: weight, unit }] : []),
    { name: 'body mass', value: mass.value, unit: 'kg' },
    ...(exponent === undefined ? [] : [{ name: 'exponent', value: exponent, unit: '1' }]),
  ]);
  return exponent === undefined
    ? found(trial, force / mass.value, 'N/kg', terms)
    : found(trial, force / mass.value ** exponent, '1', terms, exponent);
}

/** Peak force: gross, net of body weight, per kilogram, and scaled to a power of body mass. */
export const peakForceMetrics: readonly MetricDefinition[] = [
  {
    ...fixed,
    id: 'peak_force',
    unit: 'N',
    title: 'Peak force',
    formula: 'F_p, the largest F in (r, e]',
    compute: gross,
  },
  { ...fixed, id: 'peak_force_net', unit: 'N', title: 'Net peak force', formula: 'F_p - W', compute: net },
  {
    ...fixed,
    id: 'peak_force_relative',
    unit: 'N/kg',
    title: 'Peak force per kg',
    formula: 'F_p / (W / g)',
    compute: (trial) => scaled(trial, 'gross'),
  },
  {
    ...fixed,
    id: 'peak_force_net_relative',
    unit: 'N/kg',
    title: 'Net peak force per kg',
    formula: '(F_p - W) / (W / g)',
    compute: (trial) => scaled(trial, 'net'),
  },
  {
    ...fixed,
    id: 'peak_force_allometric',
    unit: '1',
    title: 'Peak force, scaled to body size',
    formula: 'F_p / (W / g)^b, F in N and mass in kg; b = 2/3 unless the method has its own',
    compute: (trial) => scaled(trial, 'gross', trial.method.allometricExponent),
  },
];
