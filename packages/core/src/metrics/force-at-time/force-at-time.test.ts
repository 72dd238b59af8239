import { describe, expect, it } from 'vitest';
import { exponentialTrial, sigmoidTrial } from '../../../test/exact-curves.ts';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { sampled, trialOf } from '../../../test/trial-of.ts';

describe('on the exponential curve (isometric-and-statistics.md 9.5, calc, tolerance 1e-5)', () => {
  const expected = {
    50: 1586.938681,
    90: 1986.860681,
    100: 2064.241118,
    150: 2353.73968,
    200: 2529.329434,
    250: 2635.830003,
  };
  it.each(Object.entries(expected))('gross, net, relative and share at %s ms', (t, force) => {
    for (const rate of [1000, 2000]) {
      const trial = exponentialTrial(rate);
      expect(Math.abs(metricValue(`force_at_${t}`, trial) - force)).toBeLessThan(1e-5);
      expect(Math.abs(metricValue(`force_net_at_${t}`, trial) - (force - 800))).toBeLessThan(1e-5);
      expect(Math.abs(metricValue(`force_at_${t}_relative`, trial) - force / (800 / 9.80665))).toBeLessThan(1e-6);
      // The peak at 3 s is 2000 N net to 12 digits.
      expect(Math.abs(metricValue(`force_share_at_${t}`, trial) - (force - 800) / 20)).toBeLessThan(1e-6);
    }
  });
});

// isometric-and-statistics.md 2.4 (calc): net force after an onset that is late by so many milliseconds; printed to 0.1 N.
// The table's delays are rounded to 0.01 ms, worth up to 0.14 N at the curve's steepest (11440 N/s).
it.each([
  [0, 210.3, 717.6, 1264.2, 1662.0, 1875.7],
  [11.64, 310.7, 850.6, 1373.8, 1726.8, 1904.6],
  [15.04, 342.8, 889.3, 1403.9, 1743.9, 1911.9],
  [21.32, 404.7, 960.3, 1457.4, 1773.2, 1924.1],
  [23.87, 430.7, 988.7, 1478.2, 1784.4, 1928.7],
  [29.33, 487.9, 1049.0, 1521.0, 1806.8, 1937.6],
  [30.31, 498.4, 1059.7, 1528.5, 1810.7, 1939.1],
])('on the second curve with the onset %d ms late', (delay, ...expected) => {
  const trial = sigmoidTrial(delay);
  [50, 100, 150, 200, 250].forEach((t, i) => {
    expect(Math.abs(metricValue(`force_net_at_${t}`, trial) - (expected[i] ?? 0)), `${t} ms`).toBeLessThan(0.05 + 0.06);
  });
});

it('reads between samples at any rate', () => {
  // Closed form: a straight line is exact under linear interpolation.
  for (const sampleRate of [500, 512, 600, 999.7]) {
    const total = sampled(sampleRate, 0, 2, (t) => 800 + 1000 * t);
    const trial = trialOf({ sampleRate, total, halfRise: Math.ceil(sampleRate), onset: 300, weight: 800 });
    for (const t of [50, 90, 150]) {
      expect(metricValue(`force_at_${t}`, trial)).toBeCloseTo(800 + 1000 * (300 / sampleRate + t / 1000), 9);
    }
  }
});

it('has no value past the end of the effort, and needs only its own instant', () => {
  expect(reasonOf('force_at_200', exponentialTrial(1000, { end: 2200 }))).toBeUndefined();
  expect(reasonOf('force_at_250', exponentialTrial(1000, { end: 2200 }))).toBe('interval-past-end');
  const gaps = { open: [{ start: 2095, end: 2105 }] };
  expect(reasonOf('force_at_100', exponentialTrial(1000, { gaps }))).toBe('gap-in-interval');
  expect(reasonOf('force_at_200', exponentialTrial(1000, { gaps }))).toBeUndefined();
  // A share also needs the peak, which is not known when a sample of the effort is missing.
  expect(reasonOf('force_share_at_200', exponentialTrial(1000, { gaps }))).toBe('gap-in-interval');
});

it('shows the reading and what it was compared with', () => {
  const { evidence } = measure('force_share_at_100', exponentialTrial());
  expect(evidence?.points?.map((point) => point.at)).toEqual([2100, expect.any(Number)]);
  expect(evidence?.terms?.map((term) => term.name)).toEqual(['force at 100 ms', 'peak force', 'body weight']);
});
