/** What one probe told: station clock minus device clock and the time the question took, ms. */
export interface ClockReading {
  readonly offset: number;
  readonly roundTrip: number;
}

/**
 * The clock of the station as seen from here: offset = ((t1 - t0) + (t2 - t3)) / 2, round trip = (t3 - t0) - (t2 - t1).
 *
 * @param t0 device clock at sending, ms; `t3` at receipt
 * @param t1 station clock at receipt, ms; `t2` at sending
 * @source D. Mills et al., RFC 5905 (2010), section 8: on-wire protocol
 */
export function readingOf(t0: number, t1: number, t2: number, t3: number): ClockReading {
  return { offset: (t1 - t0 + (t2 - t3)) / 2, roundTrip: Math.max(0, t3 - t0 - (t2 - t1)) };
}

const kept = 8;

/** Adds a reading; only the newest few are kept, because both clocks drift. */
export function withReading(readings: readonly ClockReading[], reading: ClockReading): readonly ClockReading[] {
  return [...readings, reading].slice(-kept);
}

/** The reading with the shortest round trip: its offset is wrong by at most half of that. */
export function bestReading(readings: readonly ClockReading[]): ClockReading | undefined {
  return readings.reduce<ClockReading | undefined>(
    (best, one) => (best === undefined || one.roundTrip < best.roundTrip ? one : best),
    undefined,
  );
}

/** The clock of this device, ms: steady, not moved by anyone who sets the wall clock. */
export const deviceNow = (): number => performance.now();
