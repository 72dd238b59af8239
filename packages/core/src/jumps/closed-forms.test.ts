import { describe, expect, it } from 'vitest';
import { trapezoid } from '../signal/index.ts';
import { unloadShare } from './checks/index.ts';
import { sayersPeakPower } from './height.ts';
import { heightFromFlight, heightFromVelocity } from './metrics/measuring.ts';
import { velocityNoise } from './motion.ts';

// Check values of the methods reference, jumps-and-plates.md 9.1, g = 9.81 m/s^2.
const near = (value: number, expected: number, tolerance: number) =>
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance);

describe('closed forms', () => {
  it.each([
    [0.4, 0.1962],
    [0.5, 0.3065625],
    [0.6, 0.44145],
  ])('a flight of %d s is %d m high (JP-02)', (time, height) => {
    near(heightFromFlight(time, 9.81), height, 1e-9);
  });

  it('take-off at 2.5 m/s is 0.318552497 m high (JP-03)', () => {
    near(heightFromVelocity(2.5, 9.81), 0.318552497, 1e-8);
  });

  it.each([
    [610, 11.169],
    [640, 6.801],
    [670, 2.432],
  ])('a lowest force of %d N unloads by %d %% (JP-04)', (smallest, share) => {
    near(unloadShare(686.7, smallest), share, 1e-3);
  });

  it.each([
    [1000, 190.9841864],
    [100, 190.8113669],
  ])('a half sine of 1000 N over 0.3 s at %d Hz has its trapezoidal impulse (JP-05)', (rate, impulse) => {
    const force = Float64Array.from(
      { length: 0.3 * rate + 1 },
      (_, i) => 1000 * Math.sin((Math.PI * i) / (0.3 * rate)),
    );
    near(trapezoid(force, 0, 0.3 * rate) / rate, impulse, 1e-6);
  });

  it('a jump of 35 cm by 75 kg has 3467 W by the field equation (JP-09)', () => {
    near(sayersPeakPower(35, 75), 3467, 1e-9);
  });

  it('noise of 2 N gives 0.857 mm/s over 0.9 s (JP-13)', () => {
    near(velocityNoise(2, 70, 0.9, 1000), 0.857143e-3, 1e-8);
  });
});
