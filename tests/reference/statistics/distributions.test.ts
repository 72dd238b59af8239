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
});
