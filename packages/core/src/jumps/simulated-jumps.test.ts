import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jumpRequest, jumpTrial, valueIn } from '../../test/jumps.ts';
import { analyse } from '../analysis/index.ts';
import type { JumpKind } from '../protocols/protocol.ts';
import { type Forces, forcesOf } from '../recording/index.ts';
import { type JumpSpec, recordingOfJumps, type SimulatedJump, simulateJump } from '../simulation/index.ts';

const tests: Readonly<Record<JumpKind, string>> = {
  countermovement: 'countermovement-jump',
  squat: 'squat-jump',
  drop: 'drop-jump',
  repeated: 'repeated-hops',
};

const selection = {
  inputs: [
    { from: { kind: 'channel', index: 0 }, part: 'left' },
    { from: { kind: 'channel', index: 1 }, part: 'right' },
  ],
} as const;

function forcesFrom(jumps: readonly SimulatedJump[]): Forces {
  const forces = forcesOf(recordingOfJumps(jumps), selection);
  if (!forces.ok) throw new Error(forces.reason);
  return forces.value;
}

const g = 9.80665;
const judge = (spec: JumpSpec, seed = 1) => {
  const jump = simulateJump(spec, seed);
  const request = jumpRequest(forcesFrom([jump]), tests[spec.kind ?? 'countermovement'], { gravity: g });
  return { jump, request, trial: jumpTrial(request) };
};

const spec = (kind: JumpKind): fc.Arbitrary<JumpSpec> =>
  fc.record({
    kind: fc.constant(kind),
    mass: fc.double({ min: 45, max: 130, noNaN: true }),
    height: fc.double({ min: 0.12, max: 0.6, noNaN: true }),
    sampleRate: fc.constantFrom(500, 1000, 2000),
    landingDrop: fc.double({ min: 0, max: 0.02, noNaN: true }),
    plateNoise: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
    sway: fc.constant(0),
  });

describe('jumps of known truth', () => {
  it.each(['countermovement', 'squat', 'drop'] as const)('%s: height, flight and start are found', (kind) => {
    fc.assert(
      fc.property(spec(kind), fc.nat(1000), (one, seed) => {
        const { jump, trial } = judge(one, seed);
        const { truth, sampleRate: rate } = jump;
        // 2 % and 3 mm leave room for the noise of the weight, whose error counts six to nine times in the height.
        expect(Math.abs(valueIn(trial, 'jump_height') - truth.height)).toBeLessThan(0.003 + 0.02 * truth.height);
        expect(Math.abs((trial.jump?.takeOff ?? 0) / rate - truth.takeOff)).toBeLessThan(0.003 + 1 / rate);
        expect(Math.abs((trial.jump?.touchdown ?? 0) / rate - truth.touchdown)).toBeLessThan(0.002 + 1 / rate);
        if (!trial.onset.ok) throw new Error(trial.onset.reason);
        const before = kind === 'drop' ? 0.006 : 0.035;
        expect(Math.abs(trial.onset.value.index / rate - truth.onset)).toBeLessThan(before + 1 / rate);
        if (kind === 'drop') {
          // The first sample over the threshold comes late, never early: the fall reads a little low.
          expect(Math.abs(valueIn(trial, 'drop_height') - truth.parameters.dropHeight)).toBeLessThan(0.03);
          expect(Math.abs(valueIn(trial, 'contact_time') - truth.parameters.contactTime)).toBeLessThan(
            0.006 + 2 / rate,
          );
        }
      }),
      // The same ones each time: in one of some ten thousand recordings five SD are exceeded by noise alone, before the start.
      { numRuns: 60, seed: 20_260_301 },
    );
  });

  it('hops: each contact and flight is found', () => {
    const { jump, trial } = judge({ kind: 'repeated', hops: 10, contactTime: 0.19, height: 0.3 }, 5);
    expect(trial.jump?.contacts).toHaveLength(10);
    trial.jump?.contacts.forEach(({ touchdown, takeOff, nextTouchdown }, i) => {
      const [down, up, next] = jump.truth.contacts[i] ?? [0, 0, 0];
      for (const [found, known] of [
        [touchdown, down],
        [takeOff, up],
        [nextTouchdown, next],
      ] as const)
        expect(Math.abs(found / 1000 - known)).toBeLessThan(0.005);
    });
    expect(valueIn(trial, 'hop_count')).toBe(10);
    const flight = jump.truth.flightTime;
    expect(Math.abs(valueIn(trial, 'hop_rsi_best_five') / ((g * flight * flight) / 8 / 0.19) - 1)).toBeLessThan(0.05);
    expect(trial.verdict).toBe('counts');
  });

  it('hops with slow contacts have no score, and say so', () => {
    const { trial } = judge({ kind: 'repeated', contactTime: 0.3 });
    expect(trial.metrics.hop_rsi_best_five).toMatchObject({ reason: 'too-few-values' });
    expect(trial.checks.hops_enough).toMatchObject({ status: 'fail', value: 0 });
  });

  it('a squat jump with a dip is not counted, a clean one is', () => {
    expect(judge({ kind: 'squat' }).trial.verdict).toBe('counts');
    const { checks, verdict } = judge({ kind: 'squat', dip: 0.04 }).trial;
    expect(checks.squat_jump_dip?.status).toBe('fail');
    expect(checks.squat_jump_dip_depth?.value).toBeGreaterThan(3);
    expect(verdict).toBe('repeat');
  });

  it('a drifted zero is taken off and said, a large one refused', () => {
    const height = (zero: number) => judge({ zero, plateNoise: 0.3, sway: 0 }).trial;
    const held = height(0);
    const small = height(4);
    expect(small.jump?.threshold.zeroOffset).toBeCloseTo(8, 0);
    expect(small.checks.zero_in_flight?.status).toBe('warn');
    expect(Math.abs(valueIn(small, 'jump_height') - valueIn(held, 'jump_height'))).toBeLessThan(1e-3);
    expect(height(8.5).checks.zero_in_flight?.status).toBe('fail');
  });

  it('sides are told apart: positive is right', () => {
    const { trial } = judge({ shareRight: 0.55, plateNoise: 0.1 });
    for (const id of ['asymmetry_propulsion_impulse', 'asymmetry_braking_impulse', 'asymmetry_landing_peak_force'])
      expect(Math.abs(valueIn(trial, id) - 10)).toBeLessThan(0.1);
    expect(valueIn(trial, 'left_propulsion_mean_force') + valueIn(trial, 'right_propulsion_mean_force')).toBeCloseTo(
      valueIn(trial, 'propulsion_mean_force'),
      6,
    );
  });
});

describe('several jumps in one recording', () => {
  it.each(['countermovement', 'squat', 'drop', 'repeated'] as const)(
    '%s: each is a trial that is found again in its span, to the last digit',
    (kind) => {
      const jumps = [0.25, 0.33, 0.29].map((height, i) => simulateJump({ kind, height }, 20 + i));
      const forces = forcesFrom(jumps);
      const request = jumpRequest(forces, tests[kind], { gravity: g, efforts: 'all' });
      const { trials } = analyse(request);
      expect(trials).toHaveLength(3);
      let start = 0;
      trials.forEach((trial, i) => {
        expect(Math.abs((trial.jump?.touchdown ?? 0) - start - 1000 * (jumps[i]?.truth.touchdown ?? 0))).toBeLessThan(
          kind === 'repeated' ? 10_000 : 4,
        );
        start += jumps[i]?.left.length ?? 0;
        const again = analyse({ ...request, efforts: 'largest', span: trial.span }).trials;
        expect(again).toEqual([trial]);
      });
      const [highest] = analyse({ ...request, efforts: 'largest' }).trials;
      expect(highest?.jump?.takeOff).toBe(trials[1]?.jump?.takeOff);
    },
  );

  it('stepping on, standing, walking and stepping off are no jumps', () => {
    const steps = Float64Array.from({ length: 12_000 }, (_, i) => {
      const t = i / 1000;
      if (t < 1 || t > 11) return 0;
      // On at 1 s, standing, two steps on the spot with an empty plate between them, standing, off.
      if (t > 5 && t < 5.3) return 0;
      if (t > 6 && t < 6.3) return 0;
      return 700 * (t > 5.3 && t < 6 ? 1 + 0.1 * Math.sin((Math.PI * (t - 5.3)) / 0.7) : 1);
    });
    for (const test of Object.values(tests)) {
      const { trials } = analyse(jumpRequest(steps, test, { efforts: 'all' }));
      expect(trials).toMatchObject([{ reason: 'no-jump', verdict: 'repeat' }]);
    }
  });
});

describe('identities', () => {
  it('height from work is height from impulse; unweighting and braking cancel; phases make the whole', () => {
    fc.assert(
      fc.property(spec('countermovement'), fc.nat(1000), (one, seed) => {
        const { trial, jump } = judge(one, seed);
        expect(valueIn(trial, 'jump_height_work_energy')).toBeCloseTo(valueIn(trial, 'jump_height'), 9);
        const parts = ['unweighting', 'braking', 'propulsion'].map((id) => valueIn(trial, `${id}_impulse_net`));
        const [down = 0, brake = 0] = parts;
        const momentum = valueIn(trial, 'jump_momentum');
        expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(momentum, 6);
        // Braking ends with the first upward sample, so one sample's worth remains.
        expect(Math.abs(down + brake)).toBeLessThan((4 * jump.truth.weight) / jump.sampleRate);
      }),
      { numRuns: 15 },
    );
  });

  it('other newtons for the same person change forces and no height', () => {
    const jump = simulateJump({ plateNoise: 0.5 }, 7);
    const forces = forcesFrom([jump]);
    // A power of two leaves every digit as it was.
    const scaled: Forces = {
      ...forces,
      total: forces.total.map((value) => 2 * value),
      left: (forces.left ?? forces.total).map((value) => 2 * value),
      right: (forces.right ?? forces.total).map((value) => 2 * value),
    };
    const [one, two] = [forces, scaled].map((own) =>
      jumpTrial(jumpRequest(own, 'countermovement-jump', { gravity: g, jumps: 'jumps' })),
    );
    if (one === undefined || two === undefined) throw new Error('no trial');
    expect(two.jump?.takeOff).toBe(one.jump?.takeOff);
    for (const id of ['jump_height', 'rsi_modified', 'countermovement_depth', 'propulsion_peak_power_relative'])
      expect(valueIn(two, id) / valueIn(one, id)).toBeCloseTo(1, 3);
    expect(valueIn(two, 'propulsion_peak_force') / valueIn(one, 'propulsion_peak_force')).toBeCloseTo(2, 9);
  });
});
