import type {
  AdoptedCorrection,
  ClosedTrial,
  EngineOutput,
  Mode,
  Packet,
  RecordedSpan,
  SamplesPacket,
  Source,
} from '@sthene/capture';
import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import type { StationClock } from '../clock.ts';
import type { Recipes, RunPlan } from '../day/plan.ts';
import type { RigJournal } from './journal.ts';
import type { RigRuntime } from './rig-runtime.ts';

/** When an order was received, and until when it is worth anything. */
export interface Expiry {
  readonly at: MonotonicNanoseconds;
  readonly expires: MonotonicNanoseconds;
}

/** A test as it is run at a rig today. */
export interface RigTest extends Recipes {
  readonly plan: RunPlan;
}

/** A closed trial with its raw samples, taken at the moment it closed. */
export interface Closing {
  readonly closed: ClosedTrial;
  readonly recorded: RecordedSpan;
  readonly startedAt: UtcInstant;
  readonly endedAt: UtcInstant;
  /** Station clock at both ends of the span, ms; what cameras are placed by. */
  readonly stationTime?: { readonly start: number; readonly end: number };
  /** Scatter of the worst of the rig's clocks about its line, s; 0 where all channels come in one stream. */
  readonly synchronisation?: number;
  /** When the samples came that let the end be seen. */
  readonly detected: MonotonicNanoseconds;
}

/** What a rig tells its lab. Called in the order things happen. */
export interface RigListener {
  changed(rig: RigRuntime): void;
  output(rig: RigRuntime, output: EngineOutput, test: string): void;
  closed(rig: RigRuntime, closing: Closing): void;
  /** A file that a watched folder brought has been read to its end. */
  fileEnded(rig: RigRuntime, packets: readonly Packet[]): void;
  tick(rig: RigRuntime): void;
  /** Samples came, and the journal has them. */
  samples?(rig: RigRuntime, packet: SamplesPacket): void;
}

export interface RigRuntimeOptions {
  readonly id: string;
  readonly source: Source;
  /** What a check of the plates put right; every stream of the rig has it. */
  readonly correction?: AdoptedCorrection;
  /** Opens the journal of this run; of a watched folder, one for each file. */
  readonly newJournal: () => RigJournal;
  /** Each stream from header to end is a finished recording that somebody else zeroed and cued. */
  readonly files: boolean;
  readonly clock: StationClock;
  readonly gravity: number;
  readonly mode: Mode;
  readonly tests: readonly RigTest[];
  readonly listener: RigListener;
}
