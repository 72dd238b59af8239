import { expect, it } from 'vitest';
import { exponentialTrial } from '../../../test/exact-curves.ts';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

// isometric-and-statistics.md 9.5 (calc, tolerance 1e-4): the curve is steepest at its start.
it.each([
  [5, 19508.2302],
  [10, 19032.516393],
  [20, 18126.924692],
  [50, 15738.773611],
])('over %i ms on the exponential curve', (v, expected) => {
  expect(Math.abs(metricValue(`rfd_peak_${v}`, exponentialTrial()) - expected)).toBeLessThan(1e-4);
  expect(measure(`rfd_peak_${v}`, exponentialTrial()).evidence?.interval).toEqual({ start: 2000, end: 2000 + v });
});

it('over 2 ms where that is five samples', () => {
  expect(Math.abs(metricValue('rfd_peak_2', exponentialTrial(2500)) - 19801.326693)).toBeLessThan(1e-4);
});

it('refuses windows of fewer than five samples', () => {
  expect(reasonOf('rfd_peak_2', exponentialTrial(1000))).toBe('window-too-short');
  expect(reasonOf('rfd_peak_5', exponentialTrial(500))).toBe('window-too-short');
  expect(reasonOf('rfd_peak_10', exponentialTrial(500))).toBeUndefined();
});

it('interpolates windows that do not end on a sample', () => {
  // 10 ms at 550 Hz are 5.5 samples. Definition, written out: i whole, F(i + 5.5) halfway between two samples.
  const total = Array.from({ length: 60 }, (_, i) => (i < 20 ? 800 : 800 + 1000 * Math.sin((i - 20) / 20)));
  const at = (x: number) => {
    const low = total[Math.floor(x)] ?? 0;
    return low + (x % 1) * ((total[Math.ceil(x)] ?? 0) - low);
  };
  const trial = trialOf({ sampleRate: 550, total, halfRise: 30, onset: 21 });
  const p = trial.events.peak.index;
  const slopes: number[] = [];
  for (let i = 21; i + 5.5 <= p; i++) slopes.push((at(i + 5.5) - at(i)) / 0.01);
  expect(metricValue('rfd_peak_10', trial)).toBeCloseTo(Math.max(...slopes), 9);
});

it('has no value when the peak comes sooner than the window', () => {
  const total = Array.from({ length: 200 }, (_, i) => (i < 100 ? 800 : 2000 - i));
  expect(reasonOf('rfd_peak_20', trialOf({ total, halfRise: 99, onset: 95 }))).toBe('interval-past-end');
  expect(metricValue('rfd_peak_5', trialOf({ total, halfRise: 99, onset: 95 }))).toBe(1100 / 0.005);
});
