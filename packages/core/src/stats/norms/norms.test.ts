import { describe, expect, it } from 'vitest';
import { metricFactsOf } from '../../facts/facts.ts';
import { protocolRegistry } from '../../protocols/index.ts';
import { convertible, unitOf } from '../../units/index.ts';
import { normal } from '../distributions/index.ts';
import { errorOfZ, lmsValue, lmsZ, quickZInterval, zInterval } from '../scores/index.ts';
import { placeInGroup, publishedFor, publishedGroups, publishedRanges } from './index.ts';

// jumps-and-plates.md 9.6: NM-01 to NM-06 (calculated there from the printed means and SDs).
describe('a place in a published group', () => {
  it.each([
    ['NM-01', 2900, 2561.3, 339.4, 0.997938, 84.0845, 59.9794],
    ['NM-02', 2157.9, 2561.3, 339.4, -1.188568, 11.7305, 38.1143],
    ['NM-03', 55, 62.7, 4.8, -1.604167, 5.4339, 33.9583],
    ['NM-04', 0.9, 0.84, 0.15, 0.4, 65.5422, 54],
  ])('%s', (_, x, mean, sd, z, percentile, t) => {
    const place = placeInGroup(x, { mean, sd });
    expect(Math.abs(place.z.value - z)).toBeLessThan(1e-4);
    expect(Math.abs(place.percentile.value - percentile)).toBeLessThan(1e-4);
    expect(Math.abs(place.t.value - t)).toBeLessThan(1e-4);
    // How many people stand behind mean and SD is not known: nothing says how sure the place is.
    expect([place.error, place.z.low, place.percentile.high, place.level]).toEqual(new Array(4).fill(undefined));
  });

  it('NM-05: LMS there and back', () => {
    const reference = { l: -0.3, m: 30, s: 0.15 };
    for (const [x, z, percentile] of [
      [25, -1.249333, 10.5772],
      [30, 0, 50],
      [40, 1.83745, 96.6928],
    ] as const) {
      expect(Math.abs(lmsZ(x, reference) - z)).toBeLessThan(1e-5);
      expect(Math.abs(100 * normal.below(lmsZ(x, reference)) - percentile)).toBeLessThan(1e-4);
      expect(Math.abs(lmsValue(lmsZ(x, reference), reference) - x)).toBeLessThan(1e-5);
    }
  });

  it('NM-06: its standard error', () => {
    expect(Math.abs(errorOfZ(1, 45) - 0.182574)).toBeLessThan(1e-6);
    const place = placeInGroup(0.45, { mean: 0.39, sd: 0.06, n: 45 });
    expect(place.error).toBeCloseTo(0.182574, 6);
    expect(place).toMatchObject({ level: 0.95, z: quickLimits(1, 45) });
    // T and percentile follow from the limits of z.
    expect(place.t.low).toBeCloseTo(50 + 10 * (place.z.low as number), 10);
    expect(place.percentile.high).toBeCloseTo(100 * normal.below(place.z.high as number), 10);
  });

  it('has exact limits in a small group, and none from two people', () => {
    const small = placeInGroup(3000, { mean: 2102.3, sd: 506.2, n: 10 });
    const exact = zInterval(897.7 / 506.2, 10);
    expect(small.z.low).toBeCloseTo(exact.low, 10);
    expect(small.z.high).toBeCloseTo(exact.high, 10);
    expect(placeInGroup(3, { mean: 2, sd: 1, n: 2 }).z).toEqual({ value: 1 });
  });
});

const quickLimits = (z: number, n: number) => {
  const { low, high } = quickZInterval(z, n);
  return { low: expect.closeTo(low, 10) as number, high: expect.closeTo(high, 10) as number };
};

describe('published groups', () => {
  const all = [...publishedGroups, ...publishedRanges];

  it('say whom they are of, and where they were printed', () => {
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    // A list to choose from has only these words.
    const names = all.map(({ test, metric, population, level, age, sex }) =>
      [test, metric, population, level, age, sex].join(),
    );
    expect(new Set(names).size).toBe(all.length);
    for (const one of all) {
      expect(unitOf(one.unit)?.code ?? one.unit, one.id).toMatch(/^(N|N\/kg|cm|m|m\/s)$/);
      expect(one.source.where.length, one.id).toBeGreaterThan(8);
      expect(one.remark.length, one.id).toBeGreaterThan(10);
      expect(one.weight === 'no-force', one.id).toBe(one.metric === 'jump_height' || one.unit === 'm/s');
    }
    for (const { id, sd, mean, n, among } of publishedGroups) {
      expect(sd > 0 && sd < mean, id).toBe(true);
      // Either the group's own number, or that of all groups of the source: it is never guessed.
      if (n === undefined && among === undefined) throw new Error(id);
    }
    for (const { id, low, high } of publishedRanges) expect(low < high, id).toBe(true);
  });

  it('are of tests there are and of metrics these give, in a unit of the same kind', () => {
    expect(all.filter(({ test }) => test === 'imtp')).toHaveLength(13);
    for (const { id, test, metric, unit } of all) {
      expect(protocolRegistry.get(test), id).toBeDefined();
      const own = metricFactsOf(test).find((one) => one.id === metric);
      expect(own, id).toBeDefined();
      expect(own !== undefined && convertible(unit, own.unit), id).toBe(true);
    }
    expect(publishedFor({ test: 'countermovement-jump', metric: 'rsi_modified', unit: 'm/s' }).ranges).toHaveLength(2);
  });

  it('are found by test, metric and unit, and no jump among the pulls', () => {
    const found = publishedFor({ test: 'imtp', metric: 'peak_force', unit: 'N' });
    expect([found.groups.length, found.ranges.length]).toEqual([6, 3]);
    expect(publishedFor({ test: 'imtp', metric: 'peak_force_relative', unit: 'N/kg' }).groups).toHaveLength(4);
    for (const asked of [
      { test: 'imtp', metric: 'peak_force_net', unit: 'N' },
      { test: 'imtp-left', metric: 'peak_force', unit: 'N' },
      { test: 'imtp', metric: 'jump_height', unit: 'cm' },
      { test: 'imtp', metric: 'peak_force', unit: 'N/kg' },
    ])
      expect(publishedFor(asked)).toEqual({ groups: [], ranges: [] });
    expect(publishedFor({ test: 'countermovement-jump', metric: 'jump_height', unit: 'cm' }).groups).toHaveLength(2);
  });

  it('come in the unit of the lab, which moves no place', () => {
    const group = (unit: string) => publishedFor({ test: 'imtp', metric: 'peak_force', unit }).groups[1];
    const [inNewtons, inKilonewtons, inPounds] = [group('N'), group('kN'), group('[lbf_av]')];
    expect(inKilonewtons?.mean).toBeCloseTo(2.5613, 12);
    // Pound-force: 4.4482216152605 N, exactly.
    expect(inPounds?.mean).toBeCloseTo(2561.3 / 4.4482216152605, 10);
    if (!inNewtons || !inPounds) throw new Error('none');
    expect(placeInGroup(2900 / 4.4482216152605, inPounds).z.value).toBeCloseTo(
      placeInGroup(2900, inNewtons).z.value,
      10,
    );
  });
});
