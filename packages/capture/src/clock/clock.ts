import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';

/** The station's clocks as a port: monotonic time for intervals, wall clock beside it. Tests supply bad ones. */
export interface CaptureClock {
  monotonic(): MonotonicNanoseconds;
  wall(): UtcInstant;
}
