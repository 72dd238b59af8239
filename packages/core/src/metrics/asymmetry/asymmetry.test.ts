import { describe, expect, it } from 'vitest';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

/** Stands with 450 and 350 N, then holds 1500 and 1300 N. */
const left = Array.from({ length: 1000 }, (_, i) => (i < 400 ? 450 : 1500));
const right = Array.from({ length: 1000 }, (_, i) => (i < 400 ? 350 : 1300));
const trial = (options: Partial<TrialOptions> = {}) =>
  trialOf({ left, right, halfRise: 399, onset: 400, baseline: { start: 100, end: 300 }, ...options });

describe('on L = 1500 and R = 1300 N', () => {
  // isometric-and-statistics.md 9.7 (calc): BAI-1 with L as reference is +7.142857; here positive means right.
  it.each(['asymmetry_at_peak', 'asymmetry_mean_force', 'asymmetry_impulse_0_100', 'asymmetry_impulse_0_250'])(
    '%s is -7.142857 %%, and the opposite with the sides swapped',
    (id) => {
      expect(Math.abs(metricValue(id, trial()) + 7.142857)).toBeLessThan(1e-6);
      expect(Math.abs(metricValue(id, trial({ left: right, right: left })) - 7.142857)).toBeLessThan(1e-6);
      expect(metricValue(id, trial({ left, right: left }))).toBe(0);
    },
  );

  it('is all of it where one side carries nothing', () => {
    const nothing = left.map(() => 0);
    expect(metricValue('asymmetry_at_peak', trial({ right: nothing }))).toBe(-100);
    expect(metricValue('asymmetry_at_peak', trial({ left: nothing, right }))).toBe(100);
  });

  it('takes the standing forces off for the net one', () => {
    // R - 350 = 950, L - 450 = 1050: 100 * -100 / 2000.
    expect(metricValue('asymmetry_net_at_peak', trial())).toBeCloseTo(-5, 10);
  });
});

it('takes the mean over [o, e], both ends included', () => {
  const l = [100, 100, 100, 200, 300, 900];
  const r = [100, 100, 100, 400, 500, 100];
  const measured = measure('asymmetry_mean_force', trialOf({ left: l, right: r, halfRise: 2, onset: 2.5, end: 4 }));
  expect(measured).toMatchObject({ value: (100 * (450 - 250)) / 700, evidence: { interval: { start: 3, end: 5 } } });
});

it('has a reason instead of a division by zero, one side or no baseline', () => {
  const opposite = left.map((force) => -force);
  expect(reasonOf('asymmetry_at_peak', trial({ right: opposite }))).toBe('not-defined');
  expect(reasonOf('asymmetry_at_peak', trialOf({ left, halfRise: 399 }))).toBe('one-side-only');
  expect(reasonOf('asymmetry_net_at_peak', trial({ baseline: 'no-quiet-window' }))).toBe('no-quiet-window');
  const gaps = { open: [{ start: 250, end: 260 }] };
  expect(reasonOf('asymmetry_net_at_peak', trial({ gaps }))).toBe('gap-in-interval');
  expect(reasonOf('asymmetry_at_peak', trial({ gaps }))).toBeUndefined();
});
