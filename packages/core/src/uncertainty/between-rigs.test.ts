import { expect, it } from 'vitest';
import { checkedRig, pullContext } from '../../test/uncertain-pulls.ts';
import { type MetricDefinition, metricRegistry } from '../metrics/index.ts';
import { betweenChecks, commonToRig, uncertaintyOf } from './index.ts';

const metric = (id: string) => metricRegistry.get(id) as MetricDefinition;

// By hand: 0.2 % common and 0.3 % of each of two plates give sqrt(0.2^2 + 0.3^2 / 2) = 0.2915 % of a force.
it('is a share of a force, nothing per kilogram, points of an asymmetry', () => {
  const share = Math.hypot(0.2, 0.3 / Math.SQRT2);
  expect(commonToRig(metric('peak_force'), checkedRig, 'log', 3000)).toBeCloseTo(share, 12);
  expect(commonToRig(metric('peak_force'), checkedRig, 'unit', 3000)).toBeCloseTo(30 * share, 9);
  expect(commonToRig(metric('peak_force_relative'), checkedRig, 'log', 40)).toBe(0);
  expect(commonToRig(metric('time_to_peak'), checkedRig, 'unit', 1)).toBe(0);
  // F v of a jump has the gain of F; a ratio of two times has none.
  const whole = { id: 'propulsion_peak_power', unit: 'W' };
  expect(commonToRig(whole, checkedRig, 'log', 4000)).toBeCloseTo(share, 12);
  expect(commonToRig({ id: 'reactive_strength_ratio', unit: '1' }, checkedRig, 'log', 2)).toBe(0);
  expect(commonToRig(metric('asymmetry_at_peak'), checkedRig, 'unit', 4)).toBeCloseTo(0.3 / Math.SQRT2, 12);
  const { plateGain: _, ...untold } = checkedRig;
  expect(commonToRig(metric('asymmetry_at_peak'), untold, 'unit', 4)).toBeUndefined();
});

it('agrees with the propagation of the same gains through a pull', () => {
  const { trial } = pullContext(21, 'weighing', { standingShareRight: 0.5, pullShareRight: 0.5 });
  const rig = { ...checkedRig, repeatability: 0, linearity: 0, growth: 0 };
  for (const id of [
    'peak_force',
    'rfd_0_200',
    'peak_force_allometric',
    'left_force_at_100',
    'asymmetry_impulse_0_200',
    'standing_share_right',
  ]) {
    const found = uncertaintyOf(trial, metric(id), { rig });
    const measured = metric(id).compute(trial);
    if (!found.ok || !('value' in measured)) throw new Error(id);
    const want = commonToRig(metric(id), rig, 'unit', measured.value) ?? Number.NaN;
    expect(Math.abs(found.value.standard / want - 1), id).toBeLessThan(0.05);
  }
});

it('cancels by what two sessions share, and adds up where they share nothing', () => {
  const sizes = new Map([
    ['a', 0.3],
    ['b', 0.4],
  ]);
  expect(betweenChecks('a', ['a'], sizes)).toBe(0);
  expect(betweenChecks('a', ['b'], sizes)).toBeCloseTo(0.5, 12);
  expect(betweenChecks('a', ['a', 'b', 'b'], sizes)).toBeCloseTo((2 / 3) * 0.5, 12);
});
