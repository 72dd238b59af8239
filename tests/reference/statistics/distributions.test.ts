import { chiSquare, fisherF, noncentralTBelow, noncentralTQuantile, normal, studentT } from '@sthene/core/stats';
import { describe, expect, it } from 'vitest';
import { near, r } from './r.ts';

describe('distributions against R', () => {
  it('normal, into the far tail', () => {
    for (const { x, value } of r.normal) expect(near(normal.below(x), value, 1e-12), `${x}`).toBe(true);
    for (const { x, value } of r.normal) expect(near(normal.above(-x), value, 1e-12), `${x}`).toBe(true);
    for (const { p, value } of r.normalQuantile) expect(near(normal.quantile(p), value, 1e-11), `${p}`).toBe(true);
  });

  it('t, with degrees of freedom that are not whole', () => {
    for (const { x, df, value } of r.t) expect(near(studentT.below(x, df), value, 1e-11), `${x} ${df}`).toBe(true);
    for (const { p, df, value } of r.tQuantile)
      expect(near(studentT.quantile(p, df), value, 1e-8), `${p} ${df}`).toBe(true);
  });

  it('chi-square and F', () => {
    for (const { x, df, value } of r.chiSquare) expect(near(chiSquare.below(x, df), value, 1e-11)).toBe(true);
    for (const { p, df, value } of r.chiSquareQuantile) expect(near(chiSquare.quantile(p, df), value, 1e-9)).toBe(true);
    for (const { x, a, b, value } of r.f)
      expect(near(fisherF.above(x, a, b), value, 1e-10), `${x} ${a} ${b}`).toBe(true);
    for (const { p, a, b, value } of r.fQuantile)
      expect(near(fisherF.quantile(p, a, b), value, 1e-9), `${p} ${a} ${b}`).toBe(true);
  });

  it('noncentral t, to the digits R promises', () => {
    expect(r.noncentralT).toHaveLength(75);
    for (const { x, df, ncp, value } of r.noncentralT)
      expect(Math.abs(noncentralTBelow(x, df, ncp) - value), `${x} ${df} ${ncp}`).toBeLessThan(1e-10);
    for (const p of [0.025, 0.5, 0.975]) {
      const t = noncentralTQuantile(p, 16, 8.08);
      expect(Math.abs(noncentralTBelow(t, 16, 8.08) - p)).toBeLessThan(1e-12);
    }
  });

  // Values computed in full precision from the published definitions: methods on isometric tests and statistics, 9.1.
  it('published quantiles', () => {
    const t = [
      [0.975, 1, 12.7062047362],
      [0.975, 16, 2.1199052992],
      [0.95, 16, 1.7458836763],
      [0.995, 16, 2.9207816224],
    ] as const;
    for (const [p, df, value] of t) expect(studentT.quantile(p, df)).toBeCloseTo(value, 7);
    expect(fisherF.quantile(0.975, 5, 4.785143862)).toBeCloseTo(7.4986275935, 6);
    expect(fisherF.quantile(0.975, 4.785143862, 5)).toBeCloseTo(7.1907371693, 6);
    expect(chiSquare.quantile(0.025, 7)).toBeCloseTo(1.6898691807, 7);
    expect(studentT.quantile(0.975, Number.POSITIVE_INFINITY)).toBeCloseTo(1.9599639845, 8);
  });
});
