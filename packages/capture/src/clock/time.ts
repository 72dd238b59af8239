import type { MonotonicNanoseconds } from '@sthene/core';

/** Seconds between two monotonic times; exact to well under a nanosecond for months. */
export const secondsBetween = (from: MonotonicNanoseconds, to: MonotonicNanoseconds): number => Number(to - from) / 1e9;

/** A monotonic time that many seconds after another. */
export const secondsAfter = (from: MonotonicNanoseconds, seconds: number): MonotonicNanoseconds =>
  (from + BigInt(Math.round(seconds * 1e9))) as MonotonicNanoseconds;
