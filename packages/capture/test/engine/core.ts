import { protocolRegistry } from '@sthene/core';

export {
  defaultMethod,
  faults,
  type MonotonicNanoseconds,
  type PullSpec,
  type SampleIndex,
  type SimulatedPull,
  seededRandom,
  simulatePull,
  type UtcInstant,
} from '@sthene/core';

/** The long pull on both legs. */
export const imtpProtocol = protocolRegistry.get('imtp')!;

/** The pull on the left leg. */
export const imtpLeft = protocolRegistry.get('imtp-left')!;
