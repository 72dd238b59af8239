import { describe, expect, it } from 'vitest';
import { jumpRequest, jumpTrial, syntheticJump, valueIn } from '../../test/jumps.ts';
import { forcesOfCurve } from '../../test/pulls.ts';
import { heightFromVelocity } from './metrics/measuring.ts';
import { integrate, velocityAt } from './motion.ts';

// Check values JP-01 of the methods reference (jumps-and-plates.md 9.1), calculated there in double precision; the weighing window
// is that of samples 0 to 999, which ends at the cue. The threshold is 10 N unless another is said.
const force = syntheticJump();
const at = (jumps: string) => jumpTrial(jumpRequest(force, 'countermovement-jump', { cue: 1000, jumps }));
const trial = at('jumps-10');
const near = (value: number, expected: number, tolerance: number) =>
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance);

describe('the synthetic countermovement jump', () => {
  it('is weighed and begins where it does', () => {
    const { weighing } = trial.jump ?? {};
    if (!weighing?.ok || !trial.onset.ok) throw new Error('no window or onset');
    expect(weighing.value).toMatchObject({ start: 0, end: 1000, chosenBy: 'cue' });
    near(weighing.value.mean, 686.7, 1e-6);
    near(weighing.value.sd, 2.0010007506, 1e-6);
    near(5 * weighing.value.sd, 10.0050037, 1e-5);
    near(force[1005] ?? 0, 675.45, 1e-9);
    expect(trial.onsets['jump-five-sd']).toMatchObject({ value: { index: 1005 } });
    expect(trial.onset.value).toMatchObject({ index: 975, rule: 'jump-five-sd-back-30' });
  });

  it.each([
    ['jumps-10', 1850, 2361],
    ['jumps-20', 1849, 2361],
    ['jumps-30', 1849, 2361],
    ['jumps', 1850, 2361],
  ])('takes off and touches down by %s at %i and %i', (jumps, takeOff, touchdown) => {
    expect(at(jumps).jump).toMatchObject({ takeOff, touchdown });
  });

  it('has the threshold of five SD in flight', () => {
    const { threshold } = at('jumps').jump ?? {};
    expect(threshold).toMatchObject({ rule: 'five-sd-of-flight', window: { start: 1955, end: 2255 }, zeroOffset: 0 });
    near(threshold?.value ?? 0, 5.008354, 1e-4);
  });

  it.each([
    ['flight_time', 0.511, 1e-9],
    ['take_off_velocity', 2.455914286, 1e-7],
    ['jump_height', 0.307416666, 1e-7],
    ['jump_height_flight_time', 0.320199626, 1e-8],
    ['jump_height_work_energy', 0.307416666, 1e-6],
    ['jump_rise_before_take_off', 0.151494175, 1e-7],
    ['jump_height_with_rise', 0.458910841, 1e-7],
    ['peak_negative_velocity', -1.125014286, 1e-7],
    ['countermovement_depth', 0.337506927, 1e-7],
    ['unweighting_time', 0.375, 1e-9],
    ['braking_time', 0.201, 1e-9],
    ['propulsion_time', 0.299, 1e-9],
    ['time_to_take_off', 0.875, 1e-9],
    ['unweighting_impulse_net', -78.751, 1e-4],
    ['braking_impulse_net', 79.537656, 1e-4],
    ['propulsion_impulse_net', 171.127344, 1e-4],
    ['jump_impulse_net', 171.914, 1e-4],
    ['propulsion_peak_force', 1536.7, 1e-6],
    ['braking_mean_force', 1082.400804, 1e-4],
    ['propulsion_mean_force', 1257.293, 1e-4],
    ['propulsion_peak_power', 3594.758404, 1e-4],
    ['propulsion_peak_power_relative', 51.353691, 1e-4],
    ['propulsion_mean_power', 1822.999421, 1e-3],
    ['peak_velocity', 2.675091607, 1e-7],
    ['rsi_modified', 0.351333332, 1e-7],
    ['jump_momentum', 171.914, 1e-4],
  ])('%s is %d', (id, expected, tolerance) => {
    near(valueIn(trial, id), expected, tolerance);
  });

  it('has its instants where they are', () => {
    expect(trial.jump).toMatchObject({
      peakNegativeVelocity: { index: 1350 },
      lowestPosition: { index: 1550 },
      propulsionStart: 1551,
      peakForce: { index: 1750 },
    });
    const evidence = (id: string) => {
      const one = trial.metrics[id];
      return one && 'value' in one ? one.evidence.interval?.start : undefined;
    };
    expect(evidence('propulsion_peak_power')).toBe(1750);
    expect(evidence('peak_velocity')).toBe(1805);
    const work = trial.metrics.jump_height_work_energy;
    if (!work || !('value' in work)) throw new Error('no work');
    near(work.evidence.terms?.[0]?.value ?? 0, 211.103024, 1e-4);
    const motion = integrate(forcesOfCurve(force), 975, 1851, 686.7, 9.81, undefined);
    near(velocityAt(motion, 1551), 0.011237946, 1e-7);
  });

  it('moves with the rules as it should', () => {
    near(valueIn(at('jumps-20'), 'jump_height'), 0.309849896, 1e-7);
    near(trial.spread.jump_height?.by['jump-five-sd'] ?? 0, 0.307520837, 1e-7);
    near(trial.spread.jump_height?.by['fixed-20'] ?? 0, 0.309849896, 1e-7);
    near(trial.spread.jump_height?.by['jump-five-sd-back-30'] ?? 0, 0.307416666, 1e-7);
  });

  it.each([
    [687.7, 0.303410957],
    [1.01 * 686.7, 0.280661655],
  ])('with a weight of %d N is %d m high', (weight, expected) => {
    const motion = integrate(forcesOfCurve(force), 975, 1851, weight, 9.81, undefined);
    near(heightFromVelocity(velocityAt(motion, 1850), 9.81), expected, 1e-7);
  });

  it('counts: no check warns or fails', () => {
    expect(Object.entries(trial.checks).filter(([, { status }]) => status === 'warn' || status === 'fail')).toEqual([]);
    expect(trial.verdict).toBe('counts');
  });
});
