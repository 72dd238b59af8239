import { expect, it } from 'vitest';
import { exponentialTrial } from '../../../test/exact-curves.ts';
import { metricValue, reasonOf } from '../../../test/read.ts';
import { sampled, trialOf } from '../../../test/trial-of.ts';

// isometric-and-statistics.md 9.5 (calc).
it('is the trapezoidal integral of the exponential curve', () => {
  expect(Math.abs(metricValue('impulse_net_0_200', exponentialTrial()) - 227.065616)).toBeLessThan(1e-5);
  expect(Math.abs(metricValue('impulse_net_0_100', exponentialTrial()) - 73.575888)).toBeLessThan(5e-3);
  expect(Math.abs(metricValue('impulse_net_0_250', exponentialTrial()) - 316.416999)).toBeLessThan(5e-3);
  expect(Math.abs(metricValue('impulse_0_200', exponentialTrial()) - 387.067057)).toBeLessThan(5e-3);
});

it('is exact for a line, also between samples', () => {
  for (const sampleRate of [500, 512, 600, 2000]) {
    const onset = 300.25;
    const total = sampled(sampleRate, 0, 2, (t) => 800 + 1000 * t);
    const trial = trialOf({ sampleRate, total, halfRise: sampleRate, onset, weight: 700 });
    for (const t of [50, 150, 250]) {
      const seconds = t / 1000;
      const gross = (800 + 1000 * (onset / sampleRate + seconds / 2)) * seconds;
      expect(metricValue(`impulse_0_${t}`, trial)).toBeCloseTo(gross, 9);
      expect(metricValue(`impulse_net_0_${t}`, trial)).toBeCloseTo(gross - 700 * seconds, 9);
    }
  }
});

it('has the reasons of its interval', () => {
  expect(reasonOf('impulse_0_300', exponentialTrial(1000, { end: 2299 }))).toBe('interval-past-end');
  expect(reasonOf('impulse_0_300', exponentialTrial(1000, { gaps: { open: [{ start: 2100, end: 2110 }] } }))).toBe(
    'gap-in-interval',
  );
  expect(reasonOf('impulse_net_0_50', exponentialTrial(1000, { weight: 'needs-body-weight' }))).toBe(
    'needs-body-weight',
  );
});
