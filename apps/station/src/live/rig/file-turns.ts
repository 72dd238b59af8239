import type { Packet } from '@sthene/capture';
import { fileTurnLabel } from './inputs.ts';

/** Who a turn at a watched folder is of, and with which test. */
export interface FileTurn {
  readonly person: string;
  readonly test: string;
}

/** What a rig does with the packets of a file. */
export interface FileHost {
  /** A file of its own begins: its journal is another one, and nothing of the file before it is left. */
  begin(first: boolean): void;
  append(packet: Packet): void;
  note(packet: Packet): void;
  mark(label: string, sample: number, data: unknown): void;
  changed(): void;
  tick(): void;
  ended(packets: readonly Packet[]): void;
}

/** Files of a watched folder: each has a journal of its own and is judged when it is whole. */
export class FileTurns {
  readonly #host: FileHost;
  #packets: Packet[] = [];
  #files = 0;
  #waiting: FileTurn | undefined;

  constructor(host: FileHost) {
    this.#host = host;
  }

  /** The file that comes next is of this turn; undefined: of nobody's. */
  waitFor(turn: FileTurn | undefined): void {
    this.#waiting = turn;
  }

  packet(packet: Packet): void {
    const host = this.#host;
    if (packet.kind === 'header') {
      host.begin(this.#files === 0);
      this.#files++;
      this.#packets = [];
    }
    if (packet.kind === 'samples' && this.#packets.length === 1 && this.#waiting !== undefined)
      host.mark(fileTurnLabel, 0, this.#waiting);
    if (packet.kind === 'status') {
      // A word about the folder is of no file.
      host.note(packet);
      host.changed();
      return;
    }
    host.append(packet);
    this.#packets.push(packet);
    if (packet.kind !== 'end') {
      host.note(packet);
      if (packet.kind === 'samples') host.tick();
      return;
    }
    host.ended(this.#packets);
    this.#packets = [];
  }
}
