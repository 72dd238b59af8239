import { bodyMass } from '../../metrics/measuring.ts';
import { forceTimes, sides } from '../../metrics/times.ts';
import { samplesIn } from '../../signal/index.ts';
import { type NoiseRule, one, pointForce, term } from './weight.ts';

const single = 'one sample: S';

const ofSum = (words: string, weight: Extract<NoiseRule, { kind: 'weights' }>['of']): NoiseRule => ({
  kind: 'weights',
  words,
  of: weight,
});

const force: NoiseRule = ofSum(single, () => [one('total', 1)]);

const perMass: NoiseRule = ofSum('one sample over body mass: S / m', (trial) => {
  const mass = bodyMass(trial);
  return [one('total', mass.ok ? 1 / mass.value : Number.NaN)];
});

const scaled: NoiseRule = ofSum('one sample over the scaled body mass: S / m^b', (trial, { exponent = 0 }) => {
  const mass = bodyMass(trial);
  return [one('total', mass.ok ? 1 / mass.value ** exponent : Number.NaN)];
});

const share: NoiseRule = ofSum('one sample over another: S / (F_p - W) for each, by their weight', (_, value) => {
  const rise = pointForce(value, 1) - term(value, 'body weight');
  return [one('total', 100 / rise), one('total', value.value / rise)];
});

const bestMean: NoiseRule = ofSum('mean of n samples: S / sqrt(n)', (_, value) => [
  { of: 'total', weight: 1, samples: term(value, 'samples') },
]);

const loss: NoiseRule = ofSum('mean of 0.5 s over one sample', (trial, value) => {
  const peak = term(value, 'peak force');
  const mean = term(value, 'mean of the last 0.5 s');
  return [
    { of: 'total', weight: 100 / peak, samples: samplesIn(0.5, trial.forces.sampleRate) },
    one('total', (100 * mean) / peak ** 2),
  ];
});

const weight: NoiseRule = {
  kind: 'none',
  why: 'a mean of a second and more: what is left of the noise is in the spread of its 1 s means',
};

const instant: NoiseRule = {
  kind: 'none',
  why: 'a time: noise moves it only by choosing another sample of a flat top, which no small change describes',
};

/** Rules of the values that are forces at an instant, means of forces, or a time. */
export const forceRules = (): Readonly<Record<string, NoiseRule>> => ({
  body_weight: weight,
  body_mass: weight,
  peak_force: force,
  peak_force_net: force,
  peak_force_relative: perMass,
  peak_force_net_relative: perMass,
  peak_force_allometric: scaled,
  best_mean_200: bestMean,
  best_mean_1000: bestMean,
  time_to_peak: instant,
  force_at_onset: force,
  force_loss: loss,
  ...Object.fromEntries(
    forceTimes.flatMap((t) => [
      [`force_at_${t}`, force],
      [`force_net_at_${t}`, force],
      [`force_at_${t}_relative`, perMass],
      [`force_share_at_${t}`, share],
    ]),
  ),
  ...Object.fromEntries(
    sides.flatMap((side) => {
      const own: NoiseRule = ofSum('one sample of the side', () => [one(side, 1)]);
      return [
        [`${side}_force_at_peak`, own],
        [`${side}_peak_force`, own],
        ...forceTimes.map((t) => [`${side}_force_at_${t}`, own] as const),
      ];
    }),
  ),
});
