import type { MonotonicNanoseconds } from '@sthene/core';
import type { CaptureClock } from '../clock/clock.ts';
import type { HeaderPacket, MarkPacket, Packet } from '../packets/packet.ts';
import type { JournalFilePort } from './file-port.ts';
import type { DiskOutlook } from './forecast.ts';
import type { JournalStatus } from './status.ts';
import type { JournalCounts } from './tally.ts';
import type { Timer } from './timer.ts';

export interface JournalOptions {
  /** Folder of all captures of a station; made when it is not there. */
  readonly folder: string;
  readonly port: JournalFilePort;
  readonly clock: CaptureClock;
  /** Id of the session or day; no personal data. */
  readonly session: string;
  /** The packet that opened the stream. It stands in every segment and need not be appended. */
  readonly header: HeaderPacket;
  /** What the operator must know. */
  readonly onStatus?: (status: JournalStatus) => void;
  /** After every good sync; the recording light follows this. */
  readonly onConfirmed?: (confirmed: Confirmed) => void;
  /** Largest segment; 16 MiB. */
  readonly segmentBytes?: number;
  /** Longest wait before samples are written and synced, s; 0.05, which leaves half of the promised 0.1 s to the drive. */
  readonly syncEvery?: number;
  /** Most bytes of frames that wait in memory while the disk takes nothing; 32 MiB. */
  readonly queueBytes?: number;
  /** Space kept in reserve for the end of the running trial; 32 MiB, 0 for none. */
  readonly reserveBytes?: number;
  /** Longest wait for the disk when closing, s; 5. */
  readonly closeWithin?: number;
  readonly timer?: Timer;
}

/** What is safe: written, synced, and only then told. */
export interface Confirmed {
  /** Index of the first sample that is not yet safe; all before are in the journal, or listed there as gaps. */
  readonly sample: number;
  /** Bytes on disk, all segments together. */
  readonly bytes: number;
  /** When the sync that confirmed it came back; the time of opening before the first. */
  readonly at: MonotonicNanoseconds;
}

/** Answer to a wish to be safe. `complete`: everything appended before the wish is. */
export interface SyncResult extends Confirmed {
  readonly complete: boolean;
}

/** How a capture ended. */
export interface Summary extends JournalCounts {
  readonly capture: string;
  /** The closing frame is safe on disk. When false, what is missing could not be written; recovery will say what is there. */
  readonly complete: boolean;
  /** Numbered frames, and the SHA-256 over their bytes in order. */
  readonly frames: number;
  readonly sha256: string;
  readonly bytes: number;
  readonly segments: number;
  /** Segments given up after a failed write or sync. */
  readonly suspects: readonly number[];
  /** Samples refused because the disk took nothing and the queue was full; they stand in the journal as gaps. */
  readonly refused: number;
}

/** The append-only record of one stream. It takes packets without waiting and tells what is safe. */
export interface Journal {
  /** Name of the capture in its folder. */
  readonly capture: string;
  /** Takes a packet. Never waits, never throws for a reason of the disk. */
  append(packet: Packet): void;
  /** Takes a mark and syncs at once; at each cue, decision and trial end. */
  mark(packet: MarkPacket): Promise<SyncResult>;
  /** Writes and syncs what waits. Resolves when it is safe, or when an attempt failed. */
  sync(): Promise<SyncResult>;
  confirmed(): Confirmed;
  disk(): DiskOutlook;
  /** Writes the closing frame and ends. */
  close(): Promise<Summary>;
}
