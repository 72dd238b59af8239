import { describe, expect, it } from 'vitest';
import { jumpRequest, jumpTrial, throughNodes, valueIn } from '../../test/jumps.ts';
import { forcesOfCurve } from '../../test/pulls.ts';
import { nominalTouchdownSpeed } from './drop.ts';
import { heightFromVelocity } from './metrics/measuring.ts';
import { integrate, velocityAt } from './motion.ts';
import { hopStiffness } from './stiffness.ts';

const near = (value: number, expected: number, tolerance: number) =>
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance);

// Check values JP-06b of the methods reference (jumps-and-plates.md 9.1): 70 kg at 9.81 m/s^2, threshold 10 N.
const force = throughNodes([
  [0, 0],
  [0.1, 0],
  [0.2, 4634.41],
  [0.3, 0],
  [0.789, 0],
  [0.889, 2034.24],
  [1.089, 686.7],
  [3, 686.7],
]);
const trial = jumpTrial(jumpRequest(force, 'drop-jump', { jumps: 'jumps-10', jumpSetup: { boxHeight: 0.3 } }));

describe('a drop jump on one plate, weighed after the landing', () => {
  it('has its contact and flight', () => {
    expect(trial.jump).toMatchObject({
      firstTouchdown: 101,
      takeOff: 300,
      touchdown: 790,
      contacts: [{ touchdown: 101, takeOff: 300, nextTouchdown: 790 }],
    });
    expect(trial.onset).toMatchObject({ value: { index: 101, rule: 'jump-contact' } });
    near(valueIn(trial, 'system_weight'), 686.7, 1e-9);
  });

  it.each([
    ['contact_time', 0.199, 1e-9],
    ['flight_time', 0.49, 1e-9],
    ['touchdown_velocity', -2.268060399, 1e-6],
    ['drop_height', 0.262186441, 1e-6],
    ['take_off_velocity', 2.400004286, 1e-6],
    ['jump_height', 0.29357903, 1e-6],
    ['jump_height_flight_time', 0.294422625, 1e-6],
    ['reactive_strength_index_impulse', 1.475271508, 1e-6],
    ['reactive_strength_index', 1.479510678, 1e-6],
    ['reactive_strength_ratio', 2.462311558, 1e-6],
  ])('%s is %d', (id, expected, tolerance) => {
    near(valueIn(trial, id), expected, tolerance);
  });

  it('would be lower with the height of the box in place of the drop', () => {
    const speed = nominalTouchdownSpeed(0.3, 9.81);
    const motion = integrate(forcesOfCurve(force), 101, 301, 686.7, 9.81, undefined, -speed);
    near(velocityAt(motion, 300), 2.241956691, 1e-6);
    near(heightFromVelocity(velocityAt(motion, 300), 9.81), 0.256186025, 1e-6);
  });

  it('is held against the box and found 13 % lower, which passes', () => {
    expect(trial.checks.drop_from_box).toMatchObject({ status: 'pass', limit: 15 });
    near(trial.checks.drop_from_box?.value ?? 0, 100 * (0.262186441 / 0.3 - 1), 1e-4);
    expect(trial.checks.contact_length).toMatchObject({ status: 'pass' });
  });
});

describe('the closed form of a drop jump', () => {
  // JP-06 and JP-06a: 70 kg, fall of 0.26 m, take-off at 2.4 m/s, contact of 0.2 s.
  const [mass, g] = [70, 9.81];
  const fall = -nominalTouchdownSpeed(0.26, g);
  const impulse = mass * (2.4 - fall);

  it('has the fall, the impulse and the index', () => {
    near(fall, -2.258583627, 1e-7);
    near(impulse, 326.100854, 1e-6);
    const height = heightFromVelocity(2.4, g);
    near(height, 0.293577982, 1e-7);
    near(height / 0.2, 1.467889908, 1e-7);
    const air = (2 * 2.4) / g;
    near(air, 0.489296636, 1e-7);
    near(air / 0.2, 2.44648318, 1e-7);
  });

  it('loses 13.473 % with the nominal box of 0.30 m', () => {
    const nominal = -nominalTouchdownSpeed(0.3, g);
    near(nominal, -2.426107994, 1e-7);
    const velocity = nominal + impulse / mass;
    near(velocity, 2.232475633, 1e-7);
    near(heightFromVelocity(velocity, g), 0.254023825, 1e-7);
    near(100 * (heightFromVelocity(velocity, g) / heightFromVelocity(2.4, g) - 1), -13.473, 1e-3);
  });
});

it('gives the stiffness of a hop from its times', () => {
  // JP-07.
  near(hopStiffness(70, 0.2, 0.3), 25183.409, 1e-2);
});
