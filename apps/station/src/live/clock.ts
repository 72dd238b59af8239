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

/**
 * A date of the station's calendar in time.
 *
 * @param date `YYYY-MM-DD`
 * @returns its first instant, and that of the day after
 */
export function spanOfDay(date: string): readonly [from: UtcInstant, until: UtcInstant] {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  const start = (of: number) => new Date(year, month - 1, of).toISOString() as UtcInstant;
  return [start(day), start(day + 1)];
}

/** Monotonic time in ms, as messages carry it. */
export const millisecondsOf = (at: MonotonicNanoseconds): number => Number(at / 1000n) / 1000;
