import type { ClockTie } from '@sthene/contract';

/** What a video keeps beside its file. Device times in ms of the device's own clock, as they came. */
export interface VideoFacts {
  readonly turn: string;
  /** Device clock when the recorder was started. */
  readonly startedAt: number;
  /** Capture times the device noted. */
  readonly seen?: readonly number[];
  /** How the device's clock lay to the station's while it filmed. */
  readonly ties?: readonly ClockTie[];
  readonly width?: number;
  readonly height?: number;
  /** s. */
  readonly duration?: number;
  /** Frames of the file, s from its first. */
  readonly times?: readonly number[];
  /** Station clock at the first frame, ms, and by how much that may be wrong; absent where no clock was tied. */
  readonly began?: { readonly at: number; readonly uncertainty: number };
  readonly sync?: Sync;
}

/** Where a video lies beside its recording: recording time = start + rate x video time, s. */
export interface Sync {
  readonly start: number;
  /** Seconds of the recording a second of the video; 1 but for the small difference of two clocks (or sped-up virtual plates). */
  readonly rate: number;
  /** Of `start`, s. */
  readonly uncertainty: number;
}

/** Station clock at both ends of a trial's recording, ms; kept with the trial's origin. */
export interface StationTime {
  readonly start: number;
  readonly end: number;
}
