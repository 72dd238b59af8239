import type { LinkTroubleCode } from './link-trouble.ts';

/** What a link tells. After `closed` nothing comes until the next `opened`. */
export interface LinkEvents {
  /** The link stands; `device` is its serial number or address, where it has one. */
  opened(device?: string): void;
  /** The bytes may be overwritten afterwards. */
  bytes(bytes: Uint8Array): void;
  /** A datagram or another whole piece ended. */
  pieceEnd?(): void;
  /** `trouble` is absent while the link only waits for its device. */
  closed(reason: string, trouble?: LinkTroubleCode): void;
  /** Another device than before answers; its bytes are not delivered. */
  wrongDevice(words: string): void;
}

/** A byte transport, as thin as it can be: it opens, delivers, closes, and opens again by itself until it is stopped. */
export interface Link {
  /** Resolves when it has been tried once; a first failure is told by `closed`. */
  start(events: LinkEvents): Promise<void>;
  stop(): Promise<void>;
}

/** Pause before the next try; a device is back within 2 s of its return. */
export const retryMilliseconds = 400;
