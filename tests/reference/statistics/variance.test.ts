import { meanSquares, mixedModel, oneWay, straightLine } from '@sthene/core/stats';
import { describe, expect, it } from 'vitest';
import { near, r } from './r.ts';

describe('analysis of variance and regression against R', () => {
  it('two-way mean squares, F and p', () => {
    for (const { x, df, sum, f, p } of r.anova) {
      const got = meanSquares(x);
      if (!got.ok) throw new Error(got.reason);
      const { between, occasion, error, twoWay, shift } = got.value;
      const squares = [between, occasion, error];
      expect(squares.map((one) => one.df)).toEqual(df);
      for (const [i, one] of squares.entries()) expect(near(one.sum, sum[i] as number, 1e-9)).toBe(true);
      for (const [i, one] of [twoWay, shift].entries()) {
        expect(near(one.f, f[i] as number, 1e-9)).toBe(true);
        expect(near(one.p, p[i] as number, 1e-8)).toBe(true);
      }
    }
  });

  it('one-way mean squares of groups of different size', () => {
    const groups = r.oneWay.groups.map((group) => (typeof group === 'number' ? [group] : group));
    const got = oneWay(groups);
    if (!got.ok) throw new Error(got.reason);
    expect(got.value.df).toEqual(r.oneWay.df);
    expect(near(got.value.between, r.oneWay.mean[0] as number, 1e-9)).toBe(true);
    expect(near(got.value.within, r.oneWay.mean[1] as number, 1e-9)).toBe(true);
  });

  it('a straight line', () => {
    const { y, time } = r.sets.sleepstudy as (typeof r.sets)[string];
    const got = straightLine(time, y);
    const [intercept, slope] = r.line.coefficients as readonly (readonly [number, number, number, number])[];
    expect(near(got?.intercept as number, intercept?.[0] as number, 1e-11)).toBe(true);
    expect(near(got?.interceptError as number, intercept?.[1] as number, 1e-10)).toBe(true);
    expect(near(got?.slope as number, slope?.[0] as number, 1e-11)).toBe(true);
    expect(near(got?.slopeError as number, slope?.[1] as number, 1e-10)).toBe(true);
    expect(near(got?.p as number, slope?.[3] as number, 1e-8)).toBe(true);
    expect(near(got?.residualSd as number, r.line.sigma, 1e-11)).toBe(true);
    expect(near(got?.r as number, r.line.r, 1e-11)).toBe(true);
  });

  it('a mixed model of balanced data gives the mean squares back', () => {
    for (const { x } of r.anova) {
      const squares = meanSquares(x);
      const k = (x[0] as readonly number[]).length;
      const long = x.flatMap((row, i) => row.map((value, j) => ({ value, person: `p${i}`, j })));
      const fixed = Array.from({ length: k - 1 }, (_, j) => ({
        name: `occasion ${j + 2}`,
        values: long.map((one) => (one.j === j + 1 ? 1 : 0)),
      }));
      const columns = { y: long.map(({ value }) => value), person: long.map(({ person }) => person) };
      const model = mixedModel({ ...columns, fixed, random: { kind: 'person' } });
      if (!squares.ok || !model.ok) throw new Error('no fit');
      const { between, error } = squares.value;
      expect(near(model.value.residual.value ** 2, error.mean, 1e-6)).toBe(true);
      expect(near(model.value.level, (between.mean - error.mean) / k, 1e-5)).toBe(true);
      expect(near(model.value.residual.df, error.df, 1e-3)).toBe(true);
    }
  });
});
