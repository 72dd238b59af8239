import { expect, it } from 'vitest';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const held = (drop: (i: number) => number, length = 3000) =>
  Array.from({ length }, (_, i) => (i < 1000 ? 800 : i === 1000 ? 2000 : 2000 - drop(i - 1000)));

it('compares the half second before the last 90 % of the peak with the peak', () => {
  // Closed form: 0.1 N less each sample from the peak at 1000; all stays above 90 % (1800 N) to the end at 2999.
  const trial = trialOf({ total: held((i) => 0.1 * i), halfRise: 999 });
  const middle = 2000 - 0.1 * (2999 - 250.5 - 1000);
  expect(metricValue('force_loss', trial)).toBeCloseTo(100 * (1 - middle / 2000), 9);
  expect(measure('force_loss', trial).evidence?.interval).toEqual({ start: 2499, end: 2999 });
});

it('leaves out what comes after the force fell below 90 %', () => {
  const total = held((i) => (i < 800 ? 100 : 900));
  // Sample 1799 is the last above 1800 N; the 500 before it lie at 1900 N.
  expect(metricValue('force_loss', trialOf({ total, halfRise: 999 }))).toBeCloseTo(5, 10);
});

it('has no value when the force never stays near the peak', () => {
  expect(reasonOf('force_loss', trialOf({ total: held(() => 500), halfRise: 999 }))).toBe('interval-past-end');
});
