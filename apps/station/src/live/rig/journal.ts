import type { Packet } from '@sthene/capture';

/** What is safe on disk of a capture. */
export interface Confirmed {
  /** Samples, gaps included, that are safe. */
  readonly samples: number;
  readonly bytes: number;
  /** Age of the newest confirmation, ms; absent before the journal is open. */
  readonly age?: number;
}

/** What a rig needs of its journal. */
export interface RigJournal {
  /** Id of the capture in the store. */
  readonly capture: string;
  /** True when the journal could not be opened: no effort may begin. */
  readonly failed: boolean;
  /** Takes a packet before anything else looks at it. Never throws: what fails is told as an alert. */
  append(packet: Packet): void;
  /** Resolves when everything appended so far is safe (true), or cannot be made so now (false). */
  settled(): Promise<boolean>;
  confirmed(): Confirmed;
  disk(): {
    readonly bytesPerSecond: number;
    readonly freeBytes?: number;
    readonly secondsLeft?: number;
    readonly warning: boolean;
  };
  close(): Promise<void>;
}
