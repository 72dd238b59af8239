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

/** The date on a calendar at the station, where a day may begin or end hours before it does in Greenwich. */
export function dateOf(instant: UtcInstant): string {
  const at = new Date(instant);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** Monotonic time in ms, as messages carry it. */
export const millisecondsOf = (at: MonotonicNanoseconds): number => Number(at / 1000n) / 1000;
