import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';

/** The station's clocks: a monotonic one for intervals, the wall clock beside it for people. */
export interface StationClock {
  monotonic(): MonotonicNanoseconds;
  wall(): UtcInstant;
}

export const systemClock: StationClock = {
  monotonic: () => process.hrtime.bigint() as MonotonicNanoseconds,
  wall: () => new Date().toISOString() as UtcInstant,
};

/** Monotonic time in ms, as messages carry it. */
export const millisecondsOf = (at: MonotonicNanoseconds): number => Number(at / 1000n) / 1000;
