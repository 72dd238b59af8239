import { describe, expect, it } from 'vitest';
import { exactExp, exactLog, exactPower, sineOfTurns, smoothHump, smoothStep } from './exact-math.ts';

// Outside truth: Math.exp, Math.log and Math.sin of V8 (Node 20), which follow fdlibm and are within 1 ulp.
const relative = (got: number, want: number): number => Math.abs(got - want) / Math.max(1e-300, Math.abs(want));

describe('exact math', () => {
  it('agrees with the engine to 1e-15 relative for the exponential', () => {
    for (let x = -80; x <= 80; x += 0.0371) expect(relative(exactExp(x), Math.exp(x))).toBeLessThan(1e-15);
    expect(exactExp(-800)).toBe(0);
    expect(exactExp(0)).toBe(1);
  });

  it('agrees with the engine for the logarithm and powers', () => {
    for (let x = 1e-9; x < 1e6; x *= 1.037) {
      expect(Math.abs(exactLog(x) - Math.log(x))).toBeLessThan(4e-16 * Math.max(1, Math.abs(Math.log(x))));
      expect(relative(exactPower(x, 1.7), x ** 1.7)).toBeLessThan(1e-14);
    }
    expect(exactPower(0, 2)).toBe(0);
  });

  it('agrees with the engine for the sine of turns', () => {
    for (let x = -3; x <= 3; x += 0.00731) {
      expect(Math.abs(sineOfTurns(x) - Math.sin(2 * Math.PI * x))).toBeLessThan(5e-15);
    }
    expect(sineOfTurns(0.25)).toBeCloseTo(1, 15);
    expect(sineOfTurns(0.5)).toBeCloseTo(0, 15);
  });

  it('has steps and humps without corners and with exact ends', () => {
    expect([smoothStep(-1), smoothStep(0), smoothStep(0.5), smoothStep(1), smoothStep(2)]).toEqual([0, 0, 0.5, 1, 1]);
    expect([smoothHump(0), smoothHump(0.25), smoothHump(0.5), smoothHump(1)]).toEqual([0, 0.5, 1, 0]);
  });
});
