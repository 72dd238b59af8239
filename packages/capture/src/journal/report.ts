import type { SampleSpan } from '@sthene/core';
import type { JournalCounts } from './tally.ts';

/** A run of frames that could not be read. */
export interface LostFrames {
  readonly firstSequence: number;
  readonly count: number;
  /** Samples that were in them, as far as the frames around tell; never filled. */
  readonly samples?: SampleSpan;
}

/** A segment as it was found. */
export interface FoundSegment {
  readonly name: string;
  readonly byteCount: number;
  readonly sha256: string;
  /** Places without a whole frame, [start, end) in bytes. */
  readonly bad: readonly { readonly start: number; readonly end: number; readonly fault: 'cut' | 'damaged' }[];
}

/** What a capture's files hold: what is kept, and what is lost by name. */
export interface CaptureReport {
  readonly capture: string;
  readonly session?: string;
  readonly source?: string;
  readonly device?: string;
  /** Wall clock when the stream was opened. */
  readonly openedAt?: string;
  readonly segments: readonly FoundSegment[];
  readonly counts: JournalCounts;
  /** Numbered frames kept, and the SHA-256 over their bytes in order. */
  readonly frames: number;
  readonly sha256: string;
  readonly lost: readonly LostFrames[];
  /** The closing frame is there. */
  readonly closed: boolean;
  /** Closed, nothing lost, and the closing sum fits. */
  readonly whole: boolean;
  /** The journal itself said, at its last readable boundary, that all before this sample were safe. */
  readonly confirmedAtLeast: number;
  /** True when fewer samples are there than the drive had confirmed: the drive broke its word, or was damaged later. */
  readonly confirmedLost: boolean;
}
