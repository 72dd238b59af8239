import type { MonotonicNanoseconds } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { ClockPacket, MarkPacket } from '../packets/packet.ts';
import { DiskForecast } from './forecast.ts';
import { readJournal } from './read.ts';
import { allOf, checkEncoded, encodedSamples } from './testing/encoded.ts';
import { MemoryDisk } from './testing/memory-disk.ts';
import { folder, openTestJournal } from './testing/session.ts';

describe('the wall clock', () => {
  const hour = 3600;
  it.each([
    ['an hour forward', hour],
    ['an hour back, as when summer time ends', -hour],
    ['a day forward', 24 * hour],
    ['a day back', -24 * hour],
    ['a leap second', -1],
    ['another time zone taken for UTC', 5.5 * hour],
  ])('set by %s moves no sample and is noted', async (_name, step) => {
    const disk = new MemoryDisk();
    const { journal, clock, told } = await openTestJournal(disk);
    const times: bigint[] = [];
    for (let i = 0; i < 100; i++) {
      times.push(clock.monotonic());
      journal.append(encodedSamples(i * 10, 10, 2, clock.monotonic()));
      await clock.pass(0.01);
      if (i === 49) clock.setWall(step);
    }
    await journal.close();
    const read = await allOf(readJournal(disk, folder));
    const samples = read.filter((packet) => packet.kind === 'samples');
    expect(samples.map(({ at }) => at)).toEqual(times);
    expect(checkEncoded(read, 0)).toMatchObject({ next: 1000, missing: new Set() });
    const steps = read.flatMap((packet) => (packet.kind === 'clock' && packet.wallStep !== undefined ? [packet] : []));
    expect(steps.length).toBe(1);
    expect(Math.abs(((steps[0] as ClockPacket).wallStep as number) - step)).toBeLessThan(0.01);
    expect(told.map(({ code, details }) => [code, details.seconds])).toEqual([['wall-clock-jumped', step]]);
  });

  it('slewed by 500 ppm is no jump', async () => {
    const { journal, clock, codes } = await openTestJournal(new MemoryDisk());
    for (let i = 0; i < 600; i++) {
      journal.append(encodedSamples(i * 10, 10));
      await clock.pass(0.1);
      clock.setWall(0.1 * 0.0005);
    }
    expect(codes()).toEqual([]);
    await journal.close();
  });
});

describe('a station that stood still', () => {
  it.each([0.2, 1, 30, 600])('for %d s is marked with the duration, before what came afterwards', async (seconds) => {
    const disk = new MemoryDisk();
    const { journal, clock, told } = await openTestJournal(disk);
    let next = 0;
    const run = async (rounds: number) => {
      for (let i = 0; i < rounds; i++, next += 10) {
        journal.append(encodedSamples(next, 10, 2, clock.monotonic()));
        await clock.pass(0.01);
      }
    };
    await run(30);
    clock.freeze(seconds);
    next += Math.round(seconds * 1000);
    await run(30);
    await journal.close();
    const read = await allOf(readJournal(disk, folder));
    const at = read.findIndex((packet) => packet.kind === 'mark');
    const mark = read[at] as MarkPacket;
    expect(mark).toMatchObject({ label: 'station-stood-still', sample: 300 });
    const said = (mark.data as { seconds: number }).seconds;
    expect(said).toBeGreaterThanOrEqual(seconds);
    expect(said).toBeLessThan(seconds + 0.06);
    const after = read.slice(at).find((packet) => packet.kind === 'gap');
    expect(after).toMatchObject({ first: 300, count: Math.round(seconds * 1000) });
    expect(told.map(({ code }) => code)).toEqual(['station-stood-still']);
    expect(checkEncoded(read, 0).wrong).toBeUndefined();
  });

  it('is not said of a source that is silent while the station runs', async () => {
    const { journal, clock, codes } = await openTestJournal(new MemoryDisk());
    journal.append(encodedSamples(0, 10));
    await clock.pass(30);
    journal.append({ kind: 'gap', first: 10, count: 30_000, cause: 'stall', at: 1n as MonotonicNanoseconds });
    await journal.close();
    expect(codes()).toEqual([]);
  });
});

describe('the forecast of the disk', () => {
  it('says nothing before there is a rate, or at a rate of zero', () => {
    const forecast = new DiskForecast();
    expect(forecast.outlook(0)).toEqual({ warning: false });
    forecast.free(1e9, 0);
    forecast.wrote(1000, 0);
    expect(forecast.outlook(1)).toEqual({ freeBytes: 1e9 - 1000, warning: false });
    const still = new DiskForecast();
    still.free(1e9, 0);
    still.wrote(0, 0);
    still.wrote(0, 10);
    expect(still.outlook(10)).toEqual({ freeBytes: 1e9, bytesPerSecond: 0, warning: false });
  });

  it('divides what is free by the rate of the last minute', () => {
    const forecast = new DiskForecast();
    forecast.free(100e6, 0);
    for (let s = 1; s <= 120; s++) forecast.wrote(100_000, s);
    // 12 MB of 100 MB written; 88 MB at 0.1 MB/s are 880 s.
    expect(forecast.outlook(120).minutesLeft).toBeCloseTo(880 / 60, 6);
    expect(forecast.outlook(120).warning).toBe(true);
  });

  it.each([
    ['a tiny rate', 1, false],
    ['a huge rate', 1e9, true],
  ])('stays finite at %s', (_name, rate, warning) => {
    const forecast = new DiskForecast();
    forecast.free(1e12, 0);
    for (let s = 1; s <= 60; s++) forecast.wrote(rate, s);
    const outlook = forecast.outlook(60);
    expect(Number.isFinite(outlook.minutesLeft)).toBe(true);
    // 1e12 bytes at 1 GB/s last 940 s after the first minute: 15.7 min, so not yet; one minute later they warn.
    expect(outlook.warning).toBe(false);
    for (let s = 61; s <= 120; s++) forecast.wrote(rate, s);
    expect(forecast.outlook(120).warning).toBe(warning);
  });

  it('follows a changing rate within a minute, warns once below 15 and calms down above 20 minutes', () => {
    const forecast = new DiskForecast();
    forecast.free(1e9, 0);
    for (let s = 1; s <= 100; s++) forecast.wrote(1000, s);
    expect(forecast.outlook(100)).toMatchObject({ warning: false, bytesPerSecond: expect.closeTo(1000, -1) });
    for (let s = 101; s <= 161; s++) forecast.wrote(1_000_000, s);
    expect(forecast.outlook(161).bytesPerSecond).toBeCloseTo(1_000_000, -1);
    expect(forecast.outlook(161).minutesLeft).toBeLessThan(16);
    for (let s = 162; s <= 240; s++) forecast.wrote(1_000_000, s);
    expect(forecast.outlook(240).warning).toBe(true);
    for (let s = 241; s <= 320; s++) forecast.wrote(700_000, s);
    // 19 minutes: better, but not yet calm.
    forecast.free(19 * 60 * 700_000, 320);
    expect(forecast.outlook(320).warning).toBe(true);
    forecast.free(21 * 60 * 700_000, 320);
    expect(forecast.outlook(320).warning).toBe(false);
  });

  it('warns when nothing is free, even without a rate', () => {
    const forecast = new DiskForecast();
    forecast.free(0, 0);
    expect(forecast.outlook(0).warning).toBe(true);
  });
});
