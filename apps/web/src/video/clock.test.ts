import { describe, expect, it } from 'vitest';
import { readingOf } from '../live/clock.ts';
import { clockFrom, type TimedReading, withTimedReading } from './clock.ts';

/** The same chance for the same seed: a linear congruential generator (Numerical Recipes constants), enough to jitter delays. */
function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

/** A minute of probes over a link whose two ways are unequal, on a device whose clock drifts. */
function minute(seed: number, { there = 3, back = 18, jitter = 40, ppm = 60 } = {}) {
  const chance = random(seed);
  const true0 = 1e6 * (chance() - 0.5);
  const offsetAt = (device: number) => true0 + 1e-6 * ppm * device;
  let readings: readonly TimedReading[] = [];
  let now = 0;
  for (let i = 0; i < 60; i++) {
    now = 1000 * i + 30 * chance();
    const t0 = now;
    const received = t0 + there * chance() + (chance() < 0.3 ? jitter * chance() : 0);
    const t1 = received + offsetAt(received);
    const t2 = t1 + 0.1;
    const t3 = received + 0.1 + back * (0.2 + 0.8 * chance()) + (chance() < 0.3 ? jitter * chance() : 0);
    readings = withTimedReading(readings, { ...readingOf(t0, t1, t2, t3), at: t3 });
    now = t3;
  }
  return { readings, now, truth: offsetAt(now) };
}

describe('the clock of the station', () => {
  it('is never further off than the bound that is told, however unequal the two ways, for 500 links', () => {
    let worst = 0;
    for (let seed = 1; seed <= 500; seed++) {
      const { readings, now, truth } = minute(seed);
      const tie = clockFrom(readings, now);
      if (tie === undefined) throw new Error('no tie');
      expect(Math.abs(tie.offset - truth), `seed ${seed}`).toBeLessThanOrEqual(tie.uncertainty);
      // no wider than half the shortest round trip and what a minute of drift adds
      const shortest = Math.min(...readings.map(({ roundTrip }) => roundTrip));
      expect(tie.uncertainty).toBeLessThanOrEqual(shortest / 2 + 1e-4 * 60_000);
      worst = Math.max(worst, tie.uncertainty);
    }
    expect(worst).toBeGreaterThan(0);
  });

  it('is exact to the last digit where both ways are equal and nothing drifts', () => {
    const readings = [1, 2, 3].map((i) => ({ ...readingOf(i, i + 50 + 7, i + 50 + 7, i + 14), at: i + 14 }));
    expect(clockFrom(readings, 17)?.offset).toBeCloseTo(50, 12);
  });

  it('follows a clock that jumped instead of averaging over the jump', () => {
    const before = [1, 2, 3].map((i) => ({ offset: 500, roundTrip: 4, at: i }));
    const after = { offset: 900, roundTrip: 2, at: 5 };
    expect(clockFrom([...before, after], 5)).toMatchObject({ offset: 900, uncertainty: 1 });
  });

  it('is unknown before the first reading', () => {
    expect(clockFrom([], 5)).toBeUndefined();
  });
});
