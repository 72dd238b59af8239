/** How two clocks stand to each other by one probe: what has to be added to the other clock to have the own one, and the round trip, s. */
export interface ClockOffset {
  readonly offset: number;
  /** The offset is wrong by half of this at most. */
  readonly roundTrip: number;
}

/** The four times of a probe, s: sent and back by the own clock, received and answered by the other. */
export interface ProbeTimes {
  readonly sent: number;
  readonly received: number;
  readonly answered: number;
  readonly back: number;
}

/** Probes of a burst, ms between them, longest believed round trip (s), least answers, and pause between bursts (s). */
export const probing = { probes: 8, everyMilliseconds: 64, longest: 0.128, least: 6, pause: 2 } as const;

/**
 * offset = ((t0 - t1) + (t3 - t2)) / 2, round trip = (t3 - t0) - (t2 - t1), with t0 sent, t1 received, t2 answered, t3 back. The sign is that
 * of the own clock minus the other one. Source: RFC 5905, section 8, with the sign turned.
 */
export function clockOffsetOf({ sent, received, answered, back }: ProbeTimes): ClockOffset {
  return {
    offset: (sent - received + (back - answered)) / 2,
    roundTrip: back - sent - (answered - received),
  };
}

/** The offset of the probe that travelled fastest; undefined when fewer than six came back within 128 ms. */
export function bestOffset(probes: readonly ProbeTimes[]): ClockOffset | undefined {
  const good = probes.map(clockOffsetOf).filter(({ roundTrip }) => roundTrip >= 0 && roundTrip <= probing.longest);
  if (good.length < probing.least) return undefined;
  return good.reduce((best, one) => (one.roundTrip < best.roundTrip ? one : best));
}
