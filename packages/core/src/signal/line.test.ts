import { expect, it } from 'vitest';
import { lineThrough } from './line.ts';

it('is exact on a straight line and on a constant', () => {
  const line = Float64Array.from({ length: 20 }, (_, i) => 1e6 + 3 * i);
  expect(lineThrough(line, 5, 15)).toEqual({ start: 1e6 + 15, slope: 3, sd: 0 });
  expect(lineThrough([0.1, 0.1, 0.1], 0, 3)).toEqual({ start: 0.1, slope: 0, sd: 0 });
});

// By hand: y = 1, 2, 2 at x = 0, 1, 2 has slope 1/2, intercept 7/6 and residuals -1/6, 1/3, -1/6.
it('fits by least squares, with n - 2 for the residuals', () => {
  const { start, slope, sd } = lineThrough([1, 2, 2], 0, 3);
  expect(start).toBeCloseTo(7 / 6, 14);
  expect(slope).toBeCloseTo(1 / 2, 14);
  expect(sd).toBeCloseTo(Math.sqrt(1 / 6), 14);
});

// SP-08, worked by hand: an offset of clocks looked at every minute that grows by 1.2 ms each time, 0.0012 / 60 = 20 parts in a million.
it('SP-08: finds the drift between two clocks', () => {
  const { start, slope } = lineThrough([1.0, 1.0012, 1.0024, 1.0036, 1.0048], 0, 5);
  expect(Math.abs(slope / 60 - 2.0e-5)).toBeLessThan(1e-12);
  expect(Math.abs(start - 1)).toBeLessThan(1e-12);
});

it('refuses fewer than three samples', () => {
  expect(() => lineThrough([1, 2, 3], 1, 3)).toThrow(RangeError);
  expect(() => lineThrough([1, 2, 3], 1, 4)).toThrow(RangeError);
});
