import { expect, it } from 'vitest';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { sampled, trialOf } from '../../../test/trial-of.ts';

// Closed form: on a straight slope of 100 N/s the mean of n samples is the value in the middle of the window.
const slope = (sampleRate: number, end: number) =>
  trialOf({ sampleRate, total: sampled(sampleRate, 0, 4, (t) => 1000 + 100 * t), halfRise: sampleRate, end });

it.each([500, 600, 1000, 2000])('is the last window of a slope at %i Hz, inside (r, e]', (rate) => {
  const end = 3 * rate;
  for (const [id, seconds] of [
    ['best_mean_200', 0.2],
    ['best_mean_1000', 1],
  ] as const) {
    const n = Math.floor(seconds * rate + 0.5);
    expect(metricValue(id, slope(rate, end))).toBeCloseTo(1000 + (100 * (end - (n - 1) / 2)) / rate, 9);
    expect(measure(id, slope(rate, end)).evidence?.interval).toEqual({ start: end + 1 - n, end: end + 1 });
  }
});

it('starts after the half rise and needs a whole window', () => {
  // 200 samples fit exactly into (r, r + 200].
  expect(reasonOf('best_mean_200', slope(1000, 1200))).toBeUndefined();
  expect(reasonOf('best_mean_200', slope(1000, 1199))).toBe('interval-past-end');
});
