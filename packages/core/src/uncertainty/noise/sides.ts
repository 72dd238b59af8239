import type { TrialContext } from '../../analysis/trial-context.ts';
import type { NoiseRule, NoiseWeight, Value } from './weight.ts';
import { term } from './weight.ts';

/** Weights of L and R in 100 (R - L) / (R + L): 200 R and 200 L over the square of the sum, each of `samples` averaged. */
function ofSides(left: number, right: number, samples: number): readonly NoiseWeight[] {
  const square = (left + right) ** 2;
  return [
    { of: 'left', weight: (200 * right) / square, samples },
    { of: 'right', weight: (200 * left) / square, samples },
  ];
}

const asymmetry = (words: string, samples: (trial: TrialContext, value: Value) => number): NoiseRule => ({
  kind: 'weights',
  words,
  of: (trial, value) => ofSides(term(value, 'left'), term(value, 'right'), samples(trial, value)),
});

const length = (_: TrialContext, { evidence: { interval } }: Value): number =>
  interval === undefined ? Number.NaN : interval.end - interval.start;

/** For impulses the terms are in N.s: the weights fall by the time, the noise of the mean rises by it. */
const ofImpulses: NoiseRule = {
  kind: 'weights',
  words: 'sums of n samples of each side: S dt sqrt(n)',
  of: (trial, value) => {
    const samples = length(trial, value);
    const seconds = samples / trial.forces.sampleRate;
    return ofSides(term(value, 'left') / seconds, term(value, 'right') / seconds, samples);
  },
};

const net: NoiseRule = {
  kind: 'weights',
  words: 'one sample of each side less the mean of its baseline',
  of: (trial, value) => {
    const [left, right] = [term(value, 'left'), term(value, 'right')];
    const { baseline } = trial.events;
    const samples = baseline.ok ? baseline.value.end - baseline.value.start : Number.NaN;
    return [...ofSides(left, right, 1), ...ofSides(left, right, samples)];
  },
};

/** 100 R / (L + R) of means over the baseline. */
const standing: NoiseRule = {
  kind: 'weights',
  words: 'means of the baseline: S / sqrt(n)',
  of: (trial, value) => {
    const [right, total] = [term(value, 'mean right'), term(value, 'mean total')];
    const samples = length(trial, value);
    return [
      { of: 'left', weight: (100 * right) / total ** 2, samples },
      { of: 'right', weight: (100 * (total - right)) / total ** 2, samples },
    ];
  },
};

/** Rules of the values that hold two sides against each other. */
export const sideRules = (): Readonly<Record<string, NoiseRule>> => ({
  asymmetry_at_peak: asymmetry('one sample of each side', () => 1),
  asymmetry_net_at_peak: net,
  asymmetry_mean_force: asymmetry('means of n samples of each side: S / sqrt(n)', length),
  ...Object.fromEntries([100, 200, 250].map((t) => [`asymmetry_impulse_0_${t}`, ofImpulses])),
  standing_share_right: standing,
});
