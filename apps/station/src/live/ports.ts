import type { Packet, Source, SourceDescription, StreamNetwork, VirtualScript } from '@sthene/capture';
import type { StationClock } from './clock.ts';
import type { ReadPower } from './power.ts';
import type { RigJournal } from './rig/journal.ts';
import type { JournalWord } from './rig/open-journal.ts';

/** A capture that was cut off, as its journal gives it back. */
export interface RecoveredCapture {
  /** Id of the capture in the store. */
  readonly capture: string;
  readonly samples: number;
  readonly missing: number;
  /** True when damage cost samples that had been confirmed. */
  readonly damaged: boolean;
  /** What was kept and lost. */
  readonly words: string;
  /** Everything that is there, in order. */
  packets(): AsyncIterable<Packet> | Iterable<Packet>;
}

/** What live work needs of the outside; tests supply their own. */
export interface LivePorts {
  readonly clock: StationClock;
  /** One source for a rig, of one description or of one a plate; with scripts of virtual plates in place of their own. */
  createSource(
    rig: string,
    descriptions: readonly SourceDescription[],
    scripts?: Readonly<Record<string, VirtualScript>>,
  ): Source;
  openJournal(folder: string, about: JournalAbout): RigJournal;
  /** Journals of captures that were not closed. Reading changes nothing. */
  unfinished(folder: string, ids: ReadonlySet<string>): Promise<readonly RecoveredCapture[]>;
  /** Called with each lab that goes live: whether it still keeps something. Plates that wait for it need that. */
  watch?(lab: { readonly keeping: boolean }): void;
  /** Where streams are sought and offered; as the protocol has it when absent. */
  streamNetwork?: StreamNetwork;
  /** What the machine runs on; this machine's own reader when absent. */
  power?: ReadPower;
  /** Rings at the station itself where no device sounds a cue. */
  sound?(sound: string): void;
}

export interface JournalAbout {
  /** The journal's files exist from now on, under this name. */
  readonly opened: (name: string) => void;
  readonly tell: (status: JournalWord) => void;
}
