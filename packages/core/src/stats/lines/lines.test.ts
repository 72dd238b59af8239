import { describe, expect, it } from 'vitest';
import { straightLine } from '../regression.ts';
import { biasOf, demingLine, leastProducts, passingBablok } from './index.ts';

// Ten pairs that the documentation of several statistics programs uses for Deming's line.
const x = [7, 8.3, 10.5, 9, 5.1, 8.2, 10.2, 10.3, 7.1, 5.9];
const y = [7.9, 8.2, 9.6, 9, 6.5, 7.3, 10.2, 10.6, 6.3, 5.2];

// Wicklin 2022, The DO Loop: fifty pairs for Passing and Bablok's line.
const fifty =
  '10.1,10.1 10.5,10.6 12.8,13.1 8.7,8.7 10.8,11.5 10.6,10.4 9.6,9.9 11.3,11.3 7.7,7.5 11.5,11.9 7.9,7.8 9.9,9.7 9.3,9.9 16.3,16.2 9.4,9.8 11.0,11.8 9.1,8.7 12.2,11.9 13.4,12.6 9.2,9.5 8.8,9.1 9.3,9.2 8.5,8.7 9.6,9.7 13.5,13.1 9.4,9.1 9.5,9.6 10.8,11.3 14.6,14.8 9.7,9.3 16.4,16.5 8.1,8.6 8.3,8.1 9.5,9.6 20.3,20.4 8.6,8.5 9.1,8.8 8.8,8.7 9.2,9.9 8.1,8.1 9.2,9.0 17.0,17.0 10.2,10.0 10.0,9.8 6.5,6.6 7.9,7.6 11.3,10.7 14.2,14.1 11.9,12.7 9.9,9.4';

// Creatinine in serum and plasma, mg/dL, 108 pairs: example data of the R package mcr.
const creatinine =
  '0.82,0.79 1.83,1.62 1.39,1.36 0.81,1.3 1.72,1.88 3.23,3.35 1.23,1.06 1.37,1.34 1.72,1.56 0.96,0.94 0.76,0.69 1.15,1.16 0.95,0.71 1,0.83 1.52,1.44 1.56,1.26 2.45,2.36 1.85,1.9 0.89,0.95 0.82,0.77 1.01,0.82 0.96,0.88 3.38,3.42 1.31,1.15 1.1,0.96 1.26,1.12 1.15,1.02 1.2,1.29 1.01,0.87 1.33,1.13 0.87,0.82 1.66,1.33 1.41,1.14 1.08,0.93 1.17,1.09 1.77,1.89 1.33,1.57 1.23,1.29 1.21,1.13 1.2,1.11 1.49,1.61 0.89,0.79 1.09,1.19 1.03,0.96 1.07,1.25 0.89,0.87 1.39,1.36 0.96,0.86 1.06,1.03 1.17,0.86 0.9,0.8 1.39,1.22 0.91,0.86 2.28,2.25 0.9,0.87 1.34,1.3 1.32,1.04 1.02,0.92 1.04,1.01 1.27,1.21 1.08,1.11 1.1,1.21 1.39,1.54 1.07,0.99 0.79,0.79 1.02,1.06 0.94,1.02 1.99,2.15 0.7,0.56 0.84,1.01 0.66,0.59 1.1,1.17 0.9,0.82 2.06,2.09 1.31,1.44 1.03,1.22 1.61,1.77 1.52,1.6 1.11,1.13 0.85,1.06 1.2,1.38 1.09,1.24 1.27,1.29 2.06,2.08 1.21,1.31 0.77,0.82 1.06,1.28 1.02,1.15 1,1.04 1.47,1.51 0.97,1.13 1.7,1.84 1.78,1.94 0.93,1.32 0.92,1.36 1.59,1.88 0.68,0.73 0.7,0.78 1.08,1.01 0.83,0.9 1.17,1.3 0.98,0.96 0.77,0.61 0.91,1.27 1.1,1.05 0.8,1.12 0.85,0.72 0.82,0.87';

const pairsOf = (text: string) => {
  const pairs = text.split(' ').map((pair) => pair.split(',').map(Number) as [number, number]);
  return [pairs.map(([a]) => a), pairs.map(([, b]) => b)] as const;
};

describe("Deming's line", () => {
  it('for three ratios of error variance, the wrong way round among them', () => {
    const wanted = [
      [0.25, 1.0011942278, -0.089744899],
      [1, 0.9422885567, 0.3909253772],
      [4, 0.890599505, 0.8127080391],
    ] as const;
    for (const [ratio, slope, intercept] of wanted) {
      const got = demingLine(x, y, ratio);
      if (!got.ok) throw new Error(got.reason);
      expect(got.value.slope.value).toBeCloseTo(slope, 8);
      expect(got.value.intercept.value).toBeCloseTo(intercept, 8);
    }
  });

  it('with the intervals of its jackknife', () => {
    const got = demingLine(x, y, 0.25);
    if (!got.ok) throw new Error(got.reason);
    const { slope, intercept, slopeError, interceptError } = got.value;
    expect(slopeError).toBeCloseTo(0.187177, 5);
    expect(interceptError).toBeCloseTo(1.721987, 5);
    expect(slope.low).toBeCloseTo(0.569563, 5);
    expect(slope.high).toBeCloseTo(1.432825, 5);
    expect(intercept.low).toBeCloseTo(-4.060655, 5);
    expect(intercept.high).toBeCloseTo(3.881165, 5);
    expect(biasOf(got.value)).toEqual({ fixed: false, proportional: false });
  });
});

it('ordinary least squares of the same ten pairs, which takes x for exact', () => {
  const line = straightLine(x, y);
  expect(line?.slope).toBeCloseTo(0.8616233848, 8);
  expect(line?.slopeError).toBeCloseTo(0.1392428602, 8);
  expect(line?.intercept).toBeCloseTo(1.0491531803, 8);
  expect(line?.r).toBeCloseTo(0.9094931114, 8);
});

describe('ordinary least products', () => {
  it('ten pairs', () => {
    const got = leastProducts(x, y);
    if (!got.ok) throw new Error(got.reason);
    const { slope, intercept, r } = got.value;
    expect(r).toBeCloseTo(0.9094931114, 8);
    expect(slope.value).toBeCloseTo(0.9473665869, 8);
    expect(intercept.value).toBeCloseTo(0.3494886508, 8);
    expect(slope.low).toBeCloseTo(0.679208, 6);
    expect(slope.high).toBeCloseTo(1.321397, 6);
    expect(intercept.low).toBeCloseTo(-2.702601, 6);
    expect(intercept.high).toBeCloseTo(2.537663, 6);
  });

  it('falls where the methods go against each other', () => {
    const got = leastProducts(
      x,
      y.map((value) => -value),
    );
    expect(got.ok && got.value.slope.value).toBeCloseTo(-0.9473665869, 8);
    expect(got.ok && got.value.slope.low < got.value.slope.high).toBe(true);
  });
});

describe("Passing and Bablok's line", () => {
  it('ten pairs: too few to use, and said so', () => {
    const got = passingBablok(x, y);
    if (!got.ok) throw new Error(got.reason);
    const { slopes, shift, slope, intercept, small } = got.value;
    expect([slopes, shift, small]).toEqual([45, 4, true]);
    expect(slope.value).toBeCloseTo(1, 6);
    expect(intercept.value).toBeCloseTo(-0.05, 6);
    expect(slope.low).toBeCloseTo(0.71875, 6);
    expect(slope.high).toBeCloseTo(1.4210526, 6);
    expect(intercept.low).toBeCloseTo(-3.7894737, 6);
    expect(intercept.high).toBeCloseTo(2.3828125, 6);
    // The limits of the slope are the 12th and the 34th of all slopes, moved on by K = 4.
    const all = x
      .flatMap((one, i) =>
        x.slice(i + 1).map((other, j) => ((y[i + 1 + j] as number) - (y[i] as number)) / (other - one)),
      )
      .sort((a, b) => a - b);
    expect(all).toHaveLength(45);
    expect(slope.low).toBeCloseTo(all[12 + 4 - 1] as number, 9);
    expect(slope.high).toBeCloseTo(all[34 + 4 - 1] as number, 9);
  });

  it('fifty pairs with many ties', () => {
    const got = passingBablok(...pairsOf(fifty));
    if (!got.ok) throw new Error(got.reason);
    const { n, slopes, shift, slope, intercept, small } = got.value;
    expect([n, slopes, shift, small]).toEqual([50, 1217, 37, false]);
    expect(slope.value).toBeCloseTo(1.0121951, 6);
    expect(slope.low).toBeCloseTo(0.9777778, 6);
    expect(slope.high).toBeCloseTo(1.0625, 6);
    expect(intercept.value).toBeCloseTo(-0.1426829, 6);
    expect(intercept.low).toBeCloseTo(-0.665625, 6);
    expect(intercept.high).toBeCloseTo(0.2344444, 6);
    expect(biasOf(got.value)).toEqual({ fixed: false, proportional: false });
  });

  it('creatinine: near what mcr prints, which treats ties in another way', () => {
    const got = passingBablok(...pairsOf(creatinine));
    if (!got.ok) throw new Error(got.reason);
    const { n, slopes, shift, slope, intercept } = got.value;
    expect([n, slopes, shift]).toEqual([108, 5757, 459]);
    expect(slope.value).toBeCloseTo(1.0879121, 6);
    expect(slope.low).toBeCloseTo(1, 6);
    expect(slope.high).toBeCloseTo(1.1730769, 6);
    expect(intercept.value).toBeCloseTo(-0.117033, 6);
    expect(intercept.low).toBeCloseTo(-0.2001923, 6);
    expect(intercept.high).toBeCloseTo(-0.02, 6);
    for (const [value, published] of [
      [slope.value, 1.0880089],
      [slope.low, 1],
      [slope.high, 1.173005],
      [intercept.value, -0.1171729],
      [intercept.low, -0.2001149],
      [intercept.high, -0.02],
    ] as const)
      expect(Math.abs(value - published)).toBeLessThan(5e-4);
    expect(biasOf(got.value)).toEqual({ fixed: true, proportional: false });
  });
});

it('lines say what they cannot', () => {
  expect(demingLine([1, 2, 3], [1, 2, 3], 1)).toEqual({ ok: false, reason: 'too-few-values' });
  expect(demingLine([1, 1, 1, 1], [1, 2, 3, 4], 1)).toEqual({ ok: false, reason: 'no-spread' });
  expect(leastProducts([1, 1, 1], [1, 2, 3])).toEqual({ ok: false, reason: 'no-spread' });
  expect(passingBablok([1, 2, 3], [1, 2, 3])).toEqual({ ok: false, reason: 'too-few-values' });
  expect(passingBablok([2, 2, 2, 2], [2, 2, 2, 2])).toEqual({ ok: false, reason: 'no-spread' });
});
