import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ClockTie } from '@sthene/contract';
import { decodeChunk, encodeChunk } from '@sthene/contract';
import { ALL_FORMATS, FilePathSource, Input } from 'mediabunny';
import { describe, expect, it } from 'vitest';
import { filmRule } from '../../src/video/film-rule.ts';
import { syncOf } from '../../src/video/find-trial.ts';
import { matchFrames } from '../../src/video/match-frames.ts';
import { remux } from '../../src/video/remux.ts';
import { rangeOf } from '../../src/video/serve-file.ts';
import { stationTime } from '../../src/video/tie.ts';
import { TimeBase } from '../../src/video/time-base.ts';
import { filmAt } from './films.ts';
import { random } from './random.ts';

/** A camera: frames every `interval` ms with jitter (SD about `jitter`), some of them not seen, the file with whole milliseconds. */
function filmed(seed: number, { interval = 33.37, jitter = 1.5, lost = 0.1, fileLost = 0.02, zero = 5000 } = {}) {
  const chance = random(seed);
  const uneven = () => jitter * (chance() + chance() + chance() - 1.5) * 2;
  const captured = Array.from({ length: 300 }, (_, i) => zero - 1000 + i * interval + uneven());
  const startedAt = zero - interval * chance();
  const stoppedAt = zero + 8000 + interval * chance();
  const recorded = captured.filter((at, i) => at >= startedAt && at <= stoppedAt && (chance() >= fileLost || i < 40));
  const first = recorded[0] as number;
  return {
    first,
    startedAt,
    stoppedAt,
    seen: captured.filter(() => chance() >= lost),
    times: recorded.map((at) => Math.round(at - first) / 1000),
  };
}

describe('frames of a file', () => {
  it('are found among those the device saw, within the bound that is told, for 200 cameras', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const { first, startedAt, seen, times } = filmed(seed);
      const match = matchFrames(seen, times, startedAt);
      expect(match, `seed ${seed}`).toBeDefined();
      expect(Math.abs((match?.zero ?? 0) - first), `seed ${seed}`).toBeLessThanOrEqual(match?.uncertainty ?? 0);
      expect(match?.uncertainty, `seed ${seed}`).toBeLessThan(2);
    }
  });

  it('of a perfectly even camera could be shifted by whole frames: the first after the start is taken, the doubt is told', () => {
    for (let seed = 1; seed <= 50; seed++) {
      const { first, startedAt, stoppedAt, seen, times } = filmed(seed, {
        interval: 40,
        jitter: 0,
        lost: 0,
        fileLost: 0,
      });
      const match = matchFrames(seen, times, startedAt, stoppedAt);
      expect(Math.abs((match?.zero ?? 0) - first)).toBeLessThanOrEqual(1);
      // where it was not told when the recorder stopped, more shifts are possible
      expect(matchFrames(seen, times, startedAt)?.uncertainty).toBeGreaterThanOrEqual(40);
    }
  });

  it('that were never seen give no match instead of a wrong one', () => {
    const { startedAt, times } = filmed(4);
    expect(matchFrames([], times, startedAt)).toBeUndefined();
    expect(matchFrames([startedAt + 90_000], times, startedAt)).toBeUndefined();
    expect(matchFrames([startedAt + 10], [], startedAt)).toBeUndefined();
  });

  it.each(['vp8', 'avc'] as const)('of a film of Chromium (%s) are matched, and the file is seekable', async (name) => {
    const folder = mkdtempSync(join(tmpdir(), 'sthene-remux-'));
    try {
      const film = filmAt(name, 10_000);
      writeFileSync(join(folder, 'from'), Buffer.concat(film.slices));
      const made = await remux(join(folder, 'from'), join(folder, 'to'));
      if (made === undefined) throw new Error('no frame was read');
      const match = matchFrames(film.seen, made.times, film.startedAt, film.stoppedAt);
      expect(match?.matched).toBeGreaterThan(0.9 * made.times.length);
      expect(match?.uncertainty).toBeLessThan(5);
      // read again by the same library: it has a duration, an index, and the same frames
      const again = await remux(join(folder, 'to'), join(folder, 'again'));
      expect(again?.times.length).toBe(made.times.length);
      for (const [i, time] of made.times.entries())
        expect(Math.abs((again?.times[i] ?? -1) - time)).toBeLessThan(0.001);
      expect(await durationInHead(join(folder, 'to'))).toBeCloseTo(made.duration, 1);
      // what broke off gives the frames before
      writeFileSync(join(folder, 'cut'), Buffer.concat(film.slices.slice(0, -1)));
      const cut = await remux(join(folder, 'cut'), join(folder, 'short'));
      expect(cut?.times).toEqual(made.times.slice(0, cut?.times.length));
      expect(cut?.times.length).toBeGreaterThan(20);
      writeFileSync(join(folder, 'nothing'), 'this is no film');
      expect(await remux(join(folder, 'nothing'), join(folder, 'none'))).toBeUndefined();
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

/** Duration as the file says it in its head or index, without reading frames, s. */
async function durationInHead(file: string): Promise<number | null> {
  const input = new Input({ source: new FilePathSource(file), formats: ALL_FORMATS });
  const duration = await input.getDurationFromMetadata();
  input.dispose();
  return duration;
}

describe('a device clock', () => {
  const ties: ClockTie[] = [
    { at: 1000, offset: 500, uncertainty: 4 },
    { at: 61_000, offset: 503, uncertainty: 1 },
  ];
  it('is placed by the tie that says it best where it is asked', () => {
    expect(stationTime(61_500, ties)).toEqual({ at: 62_003, uncertainty: 1 + 1e-4 * 500 });
    expect(stationTime(1000, ties)?.at).toBe(1500);
    expect(stationTime(40_000, ties)).toMatchObject({ at: 40_503 });
    expect(stationTime(5, [])).toBeUndefined();
  });
});

describe('samples of a stream', () => {
  it('have station times within a millisecond and a half although packets come up to 20 ms late and the rate is off', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const chance = random(seed);
      const base = new TimeBase(1000);
      const rate = 1000 * (1 + 0.004 * (chance() - 0.5));
      let busyUntil = 0;
      for (let first = 0; first < 90_000; first += 10) {
        const made = 50 + (first + 10 - 1) / rate;
        // late by chance, in order, as a socket delivers
        busyUntil = Math.max(busyUntil, made + (chance() < 0.3 ? 0.02 * chance() : 0.0005 * chance()));
        base.samples({ first, count: 10, at: BigInt(Math.round(1e9 * busyUntil)) as never });
      }
      for (const index of [5_000, 42_000, 88_888]) {
        const off = (base.timeOf(index) ?? 0) - 1000 * (50 + index / rate);
        expect(Math.abs(off), `seed ${seed}, sample ${index}`).toBeLessThan(1.5);
      }
    }
  });
  it('have none before any came', () => {
    expect(new TimeBase(1000).timeOf(3)).toBeUndefined();
  });
});

describe('a place beside the recording', () => {
  it('is affine: the first frame, and how fast the two run', () => {
    // by hand: the recording of 8 s took 8.004 s of the station, the film began 1 s into it
    const sync = syncOf({ at: 11_000, uncertainty: 2 }, { start: 10_000, end: 18_004 }, 8);
    expect(sync.start).toBeCloseTo(8 / 8.004, 12);
    expect(sync.rate).toBeCloseTo(8 / 8.004, 12);
    expect(sync.uncertainty).toBeCloseTo(0.002, 5);
  });
});

describe('who may be filmed', () => {
  const minor = { unknown: false, minor: true, consent: false };
  it.each([
    ['an adult', { ...minor, minor: false }, 'with-consent', true],
    ['someone under 18 without consent', minor, 'with-consent', false],
    ['someone under 18 with consent', { ...minor, consent: true }, 'with-consent', true],
    ['someone under 18 where the lab films none', { ...minor, consent: true }, 'never', false],
    ['someone nobody knows yet', { unknown: true, minor: false, consent: false }, 'with-consent', false],
  ] as const)('%s', (_, who, minors, allowed) => {
    const rule = filmRule(who, { minors });
    expect(rule.allowed).toBe(allowed);
    expect(rule.words).toMatch(/\w+\.$/);
  });
});

describe('a range of bytes (RFC 9110, section 14.1.2)', () => {
  it.each([
    ['bytes=0-499', { first: 0, last: 499 }],
    ['bytes=500-999', { first: 500, last: 999 }],
    ['bytes=-500', { first: 9500, last: 9999 }],
    ['bytes=9500-', { first: 9500, last: 9999 }],
    ['bytes=0-', { first: 0, last: 9999 }],
    ['bytes=9990-20000', { first: 9990, last: 9999 }],
    ['bytes=-20000', { first: 0, last: 9999 }],
    ['bytes=10000-', 'outside'],
    ['bytes=-0', 'outside'],
    ['bytes=7-3', undefined],
    ['bytes=0-0,-1', undefined],
    ['lines=1-2', undefined],
    [undefined, undefined],
  ])('%s', (header, expected) => {
    expect(rangeOf(header, 10_000)).toEqual(expected);
  });
});

describe('a piece with its frame times', () => {
  it('comes back as sent, and nothing else is taken for one', () => {
    const head = { frames: [1.5, 34.9], clock: { at: 40, offset: -3.25, uncertainty: 0.4 } };
    const piece = Uint8Array.of(1, 2, 3, 250);
    const bytes = encodeChunk(head, piece);
    expect(decodeChunk(bytes)).toEqual({ head, piece });
    expect(decodeChunk(bytes.subarray(0, 9))).toBeUndefined();
    expect(decodeChunk(Uint8Array.of(255, 255, 255, 255, 1))).toBeUndefined();
    expect(decodeChunk(Uint8Array.of(2, 0, 0, 0, 0x7b, 0x7d))).toBeUndefined();
    expect(decodeChunk(new Uint8Array())).toBeUndefined();
  });
});
