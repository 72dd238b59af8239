import type { HeaderPacket, SamplesPacket } from '@sthene/capture';
import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { ForceRows } from './force-rows.ts';

const channel = (name: string, side: 'left' | 'right' | 'none', axis: 'z' | 'other', scale = 1, offset = 0) => ({
  ...{ name, plate: name, side, axis, unit: 'N', scale, offset },
});
const header: HeaderPacket = {
  kind: 'header',
  source: 'rig',
  promisedRate: 1000,
  channels: [channel('l', 'left', 'z', 0.5, 10), channel('t', 'none', 'other'), channel('r', 'right', 'z')],
  at: 0n as MonotonicNanoseconds,
  wallClock: '2026-03-02T09:00:00.000Z' as UtcInstant,
};
const packet = (first: number, count: number): SamplesPacket => ({
  kind: 'samples',
  first,
  count,
  values: Float64Array.from({ length: 3 * count }, (_, i) => 100 * (1 + Math.floor(i / count)) + (i % count)),
  at: 0n as MonotonicNanoseconds,
});
const even = { time: 50, rate: 1000 };

describe('forces as others get them', () => {
  it('are total, left and right in newtons, after the zero', () => {
    const rows = new ForceRows(header, {});
    expect(rows.labels).toEqual(['total', 'left', 'right']);
    // Left: (100 - 10) x 0.5 = 45 N; right: 300 N as it came; what is no force is not counted.
    expect(rows.rows(packet(0, 2), even, true)).toEqual([
      { time: 50, values: [345, 45, 300] },
      { values: [346.5, 45.5, 301] },
    ]);
    rows.zero({ l: 5, r: -20 });
    expect(rows.rows(packet(2, 1), even, true)[0]?.values).toEqual([360, 40, 320]);
  });

  it('are no numbers where they may not be told', () => {
    const [row] = new ForceRows(header, {}).rows(packet(0, 1), even, false);
    expect(row?.values).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });

  it('have stamps that go on evenly through packets that come unevenly, over gaps, and leap only beyond a second', () => {
    const rows = new ForceRows(header, {});
    const stamp = (first: number, time: number, rate = 1000) =>
      rows.rows(packet(first, 20), { time, rate }, true)[0]?.time ?? 0;
    expect(stamp(0, 50)).toBe(50);
    // 400 ms late: it follows by half a percent of the 20 ms.
    expect(stamp(20, 50.42)).toBeCloseTo(50.0201, 9);
    expect(stamp(40, 50.0401)).toBeCloseTo(50.0401, 9);
    // 100 samples are missing.
    expect(stamp(160, 50.1601)).toBeCloseTo(50.1601, 9);
    // A machine that slept; and a time that went back afterwards.
    expect(stamp(180, 58)).toBe(58);
    expect(stamp(200, 50.2)).toBe(58);
    // Plates that are played faster than they promise keep to the time alone.
    expect(stamp(220, 58.001, 20_000)).toBe(58.001);
    expect(stamp(240, 58.002, 20_000)).toBe(58.002);
  });
});
