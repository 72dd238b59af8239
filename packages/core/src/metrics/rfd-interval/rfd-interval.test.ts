import { expect, it } from 'vitest';
import { exponentialTrial, sigmoidTrial } from '../../../test/exact-curves.ts';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { sampled, trialOf } from '../../../test/trial-of.ts';

// isometric-and-statistics.md 9.5 (calc, tolerance 1e-4).
it.each([
  [50, 15738.773611],
  [100, 12642.411177],
  [150, 10358.264531],
  [200, 8646.647168],
  [250, 7343.320011],
])('from the onset to %i ms on the exponential curve', (t, expected) => {
  expect(Math.abs(metricValue(`rfd_0_${t}`, exponentialTrial()) - expected)).toBeLessThan(1e-4);
});

it('between two times, from the same curve', () => {
  // Differences of the forces printed in 9.5 (each to 5e-7 N) over the time between.
  expect(Math.abs(metricValue('rfd_50_100', exponentialTrial()) - (2064.241118 - 1586.938681) / 0.05)).toBeLessThan(
    1e-4,
  );
  expect(Math.abs(metricValue('rfd_100_200', exponentialTrial()) - (2529.329434 - 2064.241118) / 0.1)).toBeLessThan(
    1e-4,
  );
  expect(Math.abs(metricValue('rfd_200_250', exponentialTrial()) - (2635.830003 - 2529.329434) / 0.05)).toBeLessThan(
    1e-4,
  );
});

// isometric-and-statistics.md 2.4 (calc, printed whole; delays rounded to 0.01 ms).
it.each([
  [0, 7176],
  [11.64, 8386],
  [15.04, 8693],
  [21.32, 9202],
  [23.87, 9387],
  [29.33, 9739],
  [30.31, 9797],
])('on the second curve with the onset %d ms late', (delay, expected) => {
  expect(Math.abs(metricValue('rfd_0_100', sigmoidTrial(delay)) - expected)).toBeLessThan(1);
});

it('is the slope of a line at any rate', () => {
  for (const sampleRate of [500, 512, 600, 2000]) {
    const total = sampled(sampleRate, 0, 2, (t) => 800 + 1234 * t);
    const trial = trialOf({ sampleRate, total, halfRise: sampleRate, onset: 300.5 });
    for (const id of ['rfd_0_90', 'rfd_0_300', 'rfd_50_100', 'rfd_150_200'])
      expect(metricValue(id, trial)).toBeCloseTo(1234, 7);
  }
});

it('uses its own interval only', () => {
  const gaps = { open: [{ start: 2060, end: 2070 }] };
  expect(reasonOf('rfd_0_50', exponentialTrial(1000, { gaps }))).toBeUndefined();
  expect(reasonOf('rfd_0_100', exponentialTrial(1000, { gaps }))).toBe('gap-in-interval');
  expect(reasonOf('rfd_100_150', exponentialTrial(1000, { gaps }))).toBeUndefined();
  expect(measure('rfd_100_150', exponentialTrial()).evidence?.interval).toEqual({ start: 2100, end: 2150 });
});
