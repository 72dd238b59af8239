import { describe, expect, it } from 'vitest';
import { chiSquare, fisherF, noncentralTQuantile, normal, studentT } from './index.ts';

// isometric-and-statistics.md 9.1 (calc): computed in double precision from the definitions; tables of any textbook have their first
// digits. R's own values over a wider range are in tests/reference/statistics.
const within = (got: number, wanted: number, tolerance: number) =>
  expect(Math.abs(got - wanted), `${got} and ${wanted}`).toBeLessThanOrEqual(tolerance);

describe('distribution functions', () => {
  it.each([
    [1, 0.8413447461],
    [1.645, 0.9500150945],
    [1.96, 0.9750021049],
    [2.576, 0.9950024677],
  ])('normal below %d', (z, p) => {
    within(normal.below(z), p, 1e-9);
    within(normal.above(-z), p, 1e-9);
  });

  it.each([
    [0.9, 1.2815515655],
    [0.95, 1.644853627],
    [0.975, 1.9599639845],
    [0.995, 2.5758293035],
  ])('normal quantile of %d', (p, z) => {
    within(normal.quantile(p), z, 1e-8);
    within(studentT.quantile(p, Number.POSITIVE_INFINITY), z, 1e-8);
  });

  it.each([
    [0.975, 1, 12.7062047362],
    [0.975, 4, 2.7764451052],
    [0.975, 7, 2.3646242516],
    [0.975, 16, 2.1199052992],
    [0.975, 30, 2.0422724563],
    [0.95, 16, 1.7458836763],
    [0.995, 16, 2.9207816224],
  ])('t quantile of %d, df %i', (p, df, t) => {
    within(studentT.quantile(p, df), t, 1e-7);
  });

  it.each([
    [0.025, 7, 1.6898691807],
    [0.975, 7, 16.0127642746],
    [0.025, 19, 8.906516482],
    [0.975, 19, 32.8523268617],
    [0.05, 19, 10.1170130639],
    [0.95, 19, 30.1435272056],
  ])('chi-square quantile of %d, df %i', (p, df, x) => {
    within(chiSquare.quantile(p, df), x, 1e-7);
  });

  it.each([
    [5, 18, 3.3819678059, 1e-7],
    [18, 5, 6.3618832047, 1e-7],
    [5, 15, 3.5764153493, 1e-7],
    [15, 5, 6.4277281671, 1e-7],
    [5, 4.785143862, 7.4986275935, 1e-6],
    [4.785143862, 5, 7.1907371693, 1e-6],
  ])('F quantile of 0.975, df %d and %d', (numerator, denominator, x, tolerance) => {
    within(fisherF.quantile(0.975, numerator, denominator), x, tolerance);
  });

  // Section 9.4 (calc): the multipliers of exact limits of agreement, t'(16, 1.96 sqrt 17) / sqrt 17.
  it.each([
    [0.025, 1.3150585],
    [0.975, 3.1483238],
  ])('noncentral t quantile of %d, df 16, shifted by 1.96 sqrt 17', (p, multiplier) => {
    within(noncentralTQuantile(p, 16, 1.96 * Math.sqrt(17)) / Math.sqrt(17), multiplier, 1e-5);
  });
});
