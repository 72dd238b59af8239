import type { ClockTie } from '@sthene/contract';
import type { ClockReading } from '../live/clock.ts';

/** A reading with the device clock when it was taken, ms. */
export interface TimedReading extends ClockReading {
  readonly at: number;
}

/** How far two quartz clocks may run apart, as a share: 100 ppm, more than any device in order has. Common practice. */
const drift = 1e-4;
/** Readings that are kept: about a minute of them. */
const kept = 60;

export const withTimedReading = (all: readonly TimedReading[], one: TimedReading): readonly TimedReading[] =>
  [...all, one].slice(-kept);

/**
 * The station's clock by all readings at once. However unequal its two ways were, a reading is wrong by at most half its round trip,
 * and by what the clocks may have drifted apart since: an interval that holds the truth. The truth lies in what all intervals have in
 * common; its middle is taken, half its width is the bound. Where they have nothing in common (a clock jumped) the best of the newest
 * readings counts alone.
 *
 * @param at device clock for which the answer is wanted, ms
 * @source D. Mills et al., RFC 5905 (2010), sections 8 and 11.2.1: offset, delay, and the intersection of correctness intervals
 */
export function clockFrom(readings: readonly TimedReading[], at: number): ClockTie | undefined {
  const bounds = readings.map((one) => {
    const half = one.roundTrip / 2 + drift * Math.abs(at - one.at);
    return { low: one.offset - half, high: one.offset + half, half };
  });
  if (bounds.length === 0) return undefined;
  const low = Math.max(...bounds.map((one) => one.low));
  const high = Math.min(...bounds.map((one) => one.high));
  if (low <= high) return { at, offset: (low + high) / 2, uncertainty: (high - low) / 2 };
  const newest = bounds.slice(-8);
  const best = newest.reduce((a, b) => (b.half < a.half ? b : a));
  return { at, offset: (best.low + best.high) / 2, uncertainty: best.half };
}
