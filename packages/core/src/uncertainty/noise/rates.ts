import { forceTimes, impulseTimes, sides } from '../../metrics/times.ts';
import { samplesIn, valueAt } from '../../signal/index.ts';
import { type NoiseRule, type NoiseWeight, one, term } from './weight.ts';

/** Difference of two samples over a time: S sqrt(2) / t. */
const slope: NoiseRule = {
  kind: 'weights',
  words: 'difference of two samples over the time between them: S sqrt(2) / t',
  of: (_, value) => {
    const seconds = term(value, 'time');
    return [one('total', 1 / seconds), one('total', 1 / seconds)];
  },
};

const toPeak: NoiseRule = {
  kind: 'weights',
  words: 'difference of two samples over the time between them: S sqrt(2) / t',
  of: (_, value) => {
    const seconds = term(value, 'time to peak');
    return [one('total', 1 / seconds), one('total', 1 / seconds)];
  },
};

/** y = (F2 - F1) / (0.2 s (F_p - F1)). */
const relative: NoiseRule = {
  kind: 'weights',
  words: 'three samples, each by its weight in the formula',
  of: (_, value) => {
    const rise = term(value, 'rise from onset to peak');
    const second = 1 / (0.2 * rise);
    return [one('total', second), one('total', value.value / rise), one('total', value.value / rise - second)];
  },
};

/** Half the distance over which the slope at a crossing is taken, s. */
const aroundCrossing = 0.01;

/**
 * y = 0.6 (F_p - Q) / (t80 - t20): noise of the sample that crosses moves t by S over the slope there; noise of the peak moves the height and
 * both levels.
 */
const between: NoiseRule = {
  kind: 'weights',
  words: 'two crossings, S over the slope at each, and one sample at the peak',
  of: ({ forces }, value): NoiseWeight[] => {
    const { interval } = value.evidence;
    const seconds = term(value, 'time');
    if (interval === undefined) return [];
    const half = Math.max(1, samplesIn(aroundCrossing, forces.sampleRate));
    const slopeAt = (position: number) => {
      const low = Math.max(0, position - half);
      const high = Math.min(forces.sampleCount - 1, position + half);
      return ((valueAt(forces.total, high) - valueAt(forces.total, low)) / (high - low)) * forces.sampleRate;
    };
    const [s20, s80] = [slopeAt(interval.start), slopeAt(interval.end)];
    const perSecond = value.value / seconds;
    return [
      one('total', perSecond / s20),
      one('total', perSecond / s80),
      one('total', 0.6 / seconds - perSecond * (0.8 / s80 - 0.2 / s20)),
    ];
  },
};

/** Sum of n samples: S dt sqrt(n), written as the mean of n samples times the time. */
const impulse = (of: NoiseWeight['of']): NoiseRule => ({
  kind: 'weights',
  words: 'sum of n samples: S dt sqrt(n)',
  of: ({ forces: { sampleRate } }, { evidence: { interval } }) => {
    const samples = interval === undefined ? Number.NaN : interval.end - interval.start;
    return [{ of, weight: samples / sampleRate, samples }];
  },
});

const bands = ['50_100', '100_150', '100_200', '150_200', '200_250'];
const windows = [2, 5, 10, 20, 50];

/** Rules of rates of force development and impulses. */
export const rateRules = (): Readonly<Record<string, NoiseRule>> => ({
  ...Object.fromEntries(forceTimes.map((t) => [`rfd_0_${t}`, slope])),
  ...Object.fromEntries(bands.map((band) => [`rfd_${band}`, slope])),
  ...Object.fromEntries(windows.map((window) => [`rfd_peak_${window}`, slope])),
  rfd_average: toPeak,
  rfd_20_80: between,
  rfd_0_200_relative: relative,
  ...Object.fromEntries(
    impulseTimes.flatMap((t) => [
      [`impulse_0_${t}`, impulse('total')],
      [`impulse_net_0_${t}`, impulse('total')],
      ...sides.map((side) => [`${side}_impulse_0_${t}`, impulse(side)] as const),
    ]),
  ),
});
