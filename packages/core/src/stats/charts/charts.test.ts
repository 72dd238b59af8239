import { describe, expect, it } from 'vitest';
import { cusum, ewma, individualsChart, runRules } from './index.ts';

// Data and printed values: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 to 6.3.2.4.
const temperatures = [
  52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6,
  52.1,
];

describe('chart of single values', () => {
  it('centre, limits and moving range', () => {
    const found = individualsChart(temperatures.slice(10));
    if (!found.ok) throw new Error(found.reason);
    const { centre, movingRange, low, high, movingRangeHigh, provisional } = found.value;
    for (const [got, printed] of [
      [centre, 50.81],
      [movingRange, 1.8778],
      [high, 55.8041],
      [low, 45.8159],
      [movingRangeHigh, 6.1347],
    ] as const)
      expect(Math.abs(got - printed)).toBeLessThan(5e-4);
    expect(provisional).toBe(false);
    expect(individualsChart([1, 2, 3, 4, 5])).toEqual({ ok: false, reason: 'too-few-values' });
    const six = individualsChart([1, 2, 3, 4, 5, 6]);
    expect(six.ok && six.value.provisional).toBe(true);
  });

  it('run rules at the point that completes them', () => {
    expect(runRules([0, 0, 3.1]).at(-1)).toEqual(['beyond-3-sigma']);
    expect(runRules([2.1, 0, 2.2]).at(-1)).toEqual(['2-of-3-beyond-2-sigma']);
    expect(runRules([1.1, 1.2, 0.3, 1.4, 1.5]).at(-1)).toEqual(['4-of-5-beyond-1-sigma']);
    expect(runRules(new Array(8).fill(0.1)).at(-1)).toEqual(['8-on-one-side']);
    for (const z of [[0, 0, 3.1], [2.1, 0, 2.2], [1.1, 1.2, 0.3, 1.4, 1.5], new Array<number>(8).fill(0.1)])
      expect(runRules(z).slice(0, -1).flat(), 'nothing before it').toEqual([]);
    expect(runRules([2.1, 0, -2.2]).flat()).toEqual([]);
    expect(runRules(new Array(7).fill(0.1)).flat()).toEqual([]);
    expect(runRules([-2.1, -2.2, 0]).map((one) => one.length)).toEqual([0, 0, 0]);
  });
});

describe('exponentially weighted mean', () => {
  const options = { target: 50, sigma: 2.0539, weight: 0.3, width: 3 };
  it('as printed, with steady limits', () => {
    const printed = [
      50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92,
      50.73, 51.23, 51.94, 51.99,
    ];
    const points = ewma(temperatures, { ...options, steady: true });
    for (const [i, { mean, low, high, out }] of points.entries()) {
      expect(Math.abs(mean - (printed[i] as number))).toBeLessThanOrEqual(0.0051);
      expect(high).toBeCloseTo(52.588432, 6);
      expect(low).toBeCloseTo(47.411568, 6);
      expect(out).toBe(false);
    }
  });

  it('with limits that begin narrow', () => {
    const points = ewma(temperatures, options);
    const halves = [1.8485, 2.2564, 2.4314, 2.5127, 2.5516];
    for (const [i, half] of halves.entries()) {
      const { low, high } = points[i] as (typeof points)[number];
      expect(Math.abs((high - low) / 2 - half)).toBeLessThan(1e-4);
    }
    expect(points[0]?.mean).toBeCloseTo(50.6, 9);
    expect(points[0]?.out).toBe(false);
    expect(ewma([58], options)[0]?.out).toBe(true);
  });
});

describe('cumulative sums', () => {
  const values = [
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325,
    327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ];
  it('as printed', () => {
    const points = cusum(values, { target: 325, slack: 0.3175, limit: 4.1959 });
    const high = [3.0075, 4.94, 7.4475, 10.63, 11.9875, 14.445, 16.0025, 19.035];
    for (const [i, printed] of high.entries()) expect(points[12 + i]?.high).toBeCloseTo(printed, 9);
    expect(points.findIndex(({ out }) => out)).toBe(13);
    expect(points.slice(13).every(({ out }) => out)).toBe(true);
    expect(Math.max(...points.map(({ low }) => low))).toBeCloseTo(0.715, 9);
    expect(points[7]?.low).toBeCloseTo(0.715, 9);
  });
});
