import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Forces } from '../recording/forces.ts';
import { touchesGap } from './gaps.ts';
import { trapezoid } from './integral.ts';
import { valueAt } from './interpolate.ts';
import { roundHalfUp, samplesIn } from './rounding.ts';
import { indexOfLargest, meanOf, sdOf } from './statistics.ts';

describe('rounding', () => {
  it('rounds halves up, also below zero', () => {
    expect([0.5, 1.5, 2.4999, -0.5, -1.5].map(roundHalfUp)).toEqual([1, 2, 2, 0, -1]);
    expect(samplesIn(0.25, 450)).toBe(113);
  });
});

describe('mean and standard deviation', () => {
  // Exact by hand: 2, 4, 4, 4, 5, 5, 7, 9 have mean 5 and sum of squares 32.
  it('divide by n and n - 1', () => {
    const values = [2, 4, 4, 4, 5, 5, 7, 9];
    expect(meanOf(values)).toBe(5);
    expect(sdOf(values)).toBeCloseTo(Math.sqrt(32 / 7), 14);
    expect(sdOf(values, 3, 4)).toBe(0);
  });

  it('keep small deviations on a large level', () => {
    const values = Float64Array.from({ length: 1000 }, (_, i) => 1e9 + (i % 2));
    expect(meanOf(values)).toBe(1e9 + 0.5);
    expect(sdOf(values)).toBeCloseTo(Math.sqrt(250 / 999), 12);
  });

  it('refuse an empty piece', () => {
    expect(() => meanOf([1, 2], 1, 1)).toThrow(RangeError);
    expect(() => sdOf([1, 2], 0, 3)).toThrow(RangeError);
  });

  it('take the first of several largest', () => {
    expect(indexOfLargest([1, 7, 7, 3], 0, 4)).toBe(1);
    expect(indexOfLargest([1, 7, 7, 3], 2, 4)).toBe(2);
    expect(indexOfLargest([1], 1, 1)).toBe(-1);
  });
});

describe('values between samples', () => {
  it('are interpolated linearly', () => {
    expect(valueAt([10, 20, 40], 1.25)).toBe(25);
    expect(valueAt([10, 20, 40], 2)).toBe(40);
    expect(() => valueAt([10, 20, 40], 2.01)).toThrow(RangeError);
    expect(() => valueAt([10, 20, 40], -0.01)).toThrow(RangeError);
  });
});

describe('integral', () => {
  // JP-05, by the rule in double precision: half-sine 1000 N over 0.300 s; in closed form 600 / pi = 190.9859317.
  it.each([
    [1000, 190.9841864],
    [100, 190.8113669],
  ])('JP-05: trapezoid at %d Hz', (rate, want) => {
    const samples = Float64Array.from(
      { length: 0.3 * rate + 1 },
      (_, i) => 1000 * Math.sin((Math.PI * i) / rate / 0.3),
    );
    expect(Math.abs(trapezoid(samples, 0, 0.3 * rate) / rate - want)).toBeLessThan(1e-6);
  });

  it('JP-05: Simpson at 100 Hz is not ours: the program sums by trapezoids alone, 0.17 N.s less here', () => {
    // Simpson's rule is (4 T(h) - T(2 h)) / 3, Richardson's step from the trapezoids of every and of every other sample: what two of our
    // trapezoids hold. scipy 1.17.1 `simpson` gives 190.98605947489224.
    const samples = Float64Array.from({ length: 31 }, (_, i) => 1000 * Math.sin((Math.PI * i) / 30));
    const [fine, coarse] = [
      trapezoid(samples, 0, 30) / 100,
      trapezoid(
        samples.filter((_, i) => i % 2 === 0),
        0,
        15,
      ) / 50,
    ];
    const simpson = (4 * fine - coarse) / 3;
    expect(Math.abs(simpson - 190.9860595)).toBeLessThan(1e-6);
    expect(Math.abs(simpson - 600 / Math.PI)).toBeLessThan(2e-4);
    expect(Math.abs(simpson - fine - (190.9860595 - 190.8113669))).toBeLessThan(1e-6);
  });

  it('is exact for a straight line between any two positions, and adds up', () => {
    const line = Float64Array.from({ length: 20 }, (_, i) => 3 + 2 * i);
    const position = fc.double({ min: 0, max: 19, noNaN: true });
    fc.assert(
      fc.property(position, position, position, (x, y, z) => {
        const [a, b, c] = [x, y, z].sort((p, q) => p - q) as [number, number, number];
        const exact = 3 * (c - a) + c * c - a * a;
        expect(Math.abs(trapezoid(line, a, c) - exact)).toBeLessThan(1e-10);
        expect(Math.abs(trapezoid(line, a, b) + trapezoid(line, b, c) - exact)).toBeLessThan(1e-10);
      }),
    );
    expect(() => trapezoid(line, 3, 2)).toThrow(RangeError);
  });
});

describe('gaps', () => {
  it('are touched by the samples an interpolation needs', () => {
    const forces = { gaps: { open: [{ start: 10, end: 13 }], filled: [{ start: 2, end: 3 }] } } as unknown as Forces;
    expect(touchesGap(forces, 0, 9)).toBe(false);
    expect(touchesGap(forces, 0, 9.1)).toBe(true);
    expect(touchesGap(forces, 12.9, 20)).toBe(true);
    expect(touchesGap(forces, 13, 20)).toBe(false);
    expect(touchesGap(forces, 11, 11)).toBe(true);
  });
});
