import { describe, expect, it } from 'vitest';
import { timeScale, valueScale } from './plot-scale.ts';

describe('scales of the plot over time', () => {
  it('hold every value and write round ticks', () => {
    const { at, ticks } = valueScale([2787, 3641, 3012], 300, 10);
    expect(at(2787)).toBeLessThan(300);
    expect(at(3641)).toBeGreaterThan(10);
    expect(ticks).toEqual([2800, 3000, 3200, 3400, 3600]);
    const written = (values: number[]) => valueScale(values, 0, 1).marks.map(({ text }) => text);
    expect(written([2787, 3641, 3012])).toEqual(['2800', '3000', '3200', '3400', '3600']);
    expect(written([0, 0.12])).toEqual(['0.00', '0.05', '0.10']);
    expect(valueScale([0.4], 100, 0).ticks.length).toBeGreaterThan(1);
    expect(Number.isFinite(valueScale([0, 0], 100, 0).at(0))).toBe(true);
  });

  it('write months within a year and years beyond', () => {
    const of = (...days: string[]) =>
      timeScale(
        days.map((day) => Date.parse(day)),
        0,
        100,
      ).ticks.map(({ text }) => text);
    expect(of('2026-01-20', '2026-06-01')).toEqual(['Feb', 'Mar', 'Apr', 'May', 'Jun']);
    expect(of('2023-10-14', '2026-03-28')).toEqual(['2024', 'Jul', '2025', 'Jul', '2026']);
    expect(of('2016-01-01', '2026-01-01')).toContain('2020');
    expect(of('2026-03-28').length).toBeGreaterThan(0);
  });
});

it('of no instants has no ticks and ends', () => {
  const { at, ticks } = timeScale([], 50, 300);
  expect([at(1), ticks]).toEqual([50, []]);
});
