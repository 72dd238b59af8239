import { randomUUID } from 'node:crypto';
import {
  type HeaderPacket,
  type Journal,
  type JournalFilePort,
  type JournalStatus,
  openJournal,
  type Packet,
} from '@sthene/capture';
import { millisecondsOf, type StationClock } from '../clock.ts';
import type { RigJournal } from './journal.ts';

export interface RigJournalOptions {
  readonly folder: string;
  readonly port: JournalFilePort;
  readonly clock: StationClock;
  readonly tell: (status: JournalWord) => void;
  /** Called once the journal is there, with the name of its files. */
  readonly opened: (name: string) => void;
}

/** What a journal says of itself, or that there is none. */
export type JournalWord = JournalStatus | JournalFailed;

interface JournalFailed {
  readonly severity: 'alarm';
  readonly code: 'journal-not-opened';
  readonly words: string;
  readonly details?: undefined;
}

/**
 * The journal of one run of a rig. It opens with the stream's header; what comes in the moment before it is open waits in memory
 * and is not confirmed. The id of the capture stands in the journal as its session, so that recovery finds the record.
 */
export function rigJournal(options: RigJournalOptions): RigJournal {
  const { folder, port, clock, tell } = options;
  const capture = randomUUID();
  let journal: Journal | undefined;
  let opening: Promise<void> | undefined;
  let early: Packet[] = [];
  let failed = false;

  const open = async (header: HeaderPacket) => {
    try {
      journal = await openJournal({ folder, port, clock, session: capture, header, onStatus: tell });
      for (const packet of early) journal.append(packet);
      options.opened(journal.capture);
    } catch (error) {
      failed = true;
      tell({
        severity: 'alarm',
        code: 'journal-not-opened',
        words: `Nothing can be recorded: the journal could not be opened (${error instanceof Error ? error.message : String(error)}). Free the disk, then open the rig again.`,
      });
    }
    early = [];
  };

  return {
    capture,
    get failed() {
      return failed;
    },
    append(packet) {
      if (journal !== undefined) journal.append(packet);
      else if (!failed) {
        early.push(packet);
        if (packet.kind === 'header') opening ??= open(packet);
      }
    },
    async settled() {
      await opening;
      return (await journal?.sync())?.complete ?? false;
    },
    confirmed() {
      if (journal === undefined) return { samples: 0, bytes: 0 };
      const { sample, bytes, at } = journal.confirmed();
      return { samples: sample, bytes, age: millisecondsOf(clock.monotonic()) - millisecondsOf(at) };
    },
    disk() {
      const outlook = journal?.disk();
      if (outlook === undefined) return { bytesPerSecond: 0, warning: false };
      const { bytesPerSecond = 0, freeBytes, minutesLeft, warning } = outlook;
      return {
        bytesPerSecond,
        ...(freeBytes === undefined ? {} : { freeBytes }),
        ...(minutesLeft === undefined ? {} : { secondsLeft: 60 * minutesLeft }),
        warning,
      };
    },
    async close() {
      await opening;
      await journal?.close();
    },
  };
}
