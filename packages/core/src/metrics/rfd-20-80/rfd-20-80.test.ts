import { expect, it } from 'vitest';
import { exponentialTrial } from '../../../test/exact-curves.ts';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

it('is the slope between the crossings of the exponential curve', () => {
  // Closed form: 1 - exp(-t / 0.1) = x at t = -0.1 ln(1 - x), so 0.6 * 2000 N over 0.1 ln 4 s. At 1 kHz the chord between two
  // samples deviates by up to 0.025 N near 20 %, which moves a crossing by less than 2e-6 s of 0.14 s.
  const expected = 1200 / (0.1 * Math.log(4));
  expect(Math.abs(metricValue('rfd_20_80', exponentialTrial()) / expected - 1)).toBeLessThan(3e-5);
  expect(Math.abs(metricValue('rfd_20_80', exponentialTrial(600)) / expected - 1)).toBeLessThan(1e-4);
});

// Q = 800 and F_p = 1800, so 20 % is 1000 N and 80 % is 1600 N.
const quiet = Array.from({ length: 100 }, () => 800);

it('takes the last crossing before 80 % is reached', () => {
  // Passes 1000 N twice: rising at sample 100 to 101, and again between 102 (900 N) and 103 (1200 N).
  const total = [...quiet, 800, 1100, 900, 1200, 1500, 1700, 1800];
  const { evidence } = measure('rfd_20_80', trialOf({ total, halfRise: 103, quietLevel: 800 }));
  expect(evidence?.interval?.start).toBeCloseTo(102 + 100 / 300, 12);
  expect(evidence?.interval?.end).toBeCloseTo(104 + 100 / 200, 12);
  expect(metricValue('rfd_20_80', trialOf({ total, halfRise: 103, quietLevel: 800 }))).toBeCloseTo(
    600 / ((104.5 - 102 - 1 / 3) / 1000),
    6,
  );
});

it('stands without an onset, not without a rise', () => {
  expect(reasonOf('rfd_20_80', exponentialTrial(1000, { onset: 'no-quiet-window' }))).toBeUndefined();
  expect(reasonOf('rfd_20_80', trialOf({ total: quiet, halfRise: 50 }))).toBe('not-defined');
  expect(reasonOf('rfd_20_80', trialOf({ total: [...quiet, 1800], halfRise: 99, quietLevel: 100 }))).toBe(
    'not-defined',
  );
});

it('sees nothing before the span', () => {
  // The force passes 20 % before the span begins: cut there, it never lay below.
  const total = Array.from({ length: 400 }, (_, i) => 800 + Math.min(Math.max(i - 100, 0), 200) * 10);
  const trial = trialOf({ total, halfRise: 200, quietLevel: 800 });
  const later = { ...trial, events: { ...trial.events, span: { start: 150, end: 400 } } };
  expect(metricValue('rfd_20_80', trial)).toBeCloseTo(10_000, 6);
  expect(reasonOf('rfd_20_80', later)).toBe('not-defined');
});
