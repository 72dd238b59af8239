import type { LiveRole } from '@sthene/contract';

/** The part of a WebSocket that a client's queue needs; tests supply bad ones. */
export interface Socket {
  /** Bytes taken but not handed to the network yet. */
  readonly bufferedAmount: number;
  /** @param soon it goes at once, with what waits; else at the latest when this turn of the event loop ends */
  send(data: string, soon: boolean, sent: (error?: Error) => void): void;
  close(code: number, reason: string): void;
  terminate(): void;
}

/** Without its number, which the queue puts in. */
export interface Message {
  readonly type: string;
}

/**
 * `state` is what a snapshot holds anyway, `moment` is only worth something now; both may be left out when a client does not read
 * fast enough. `kept` (marks, verdicts, answers) never is.
 */
export type Weight = 'state' | 'moment' | 'kept';

/** Who is at the other end. */
export interface Device {
  readonly id: string;
  readonly name: string;
  readonly role: LiveRole;
  /** Who signs for what is done from here. */
  readonly by: string;
}

export interface ClientLimits {
  /** Largest number of bytes that wait in the socket, the frame about to be sent included. */
  readonly bytes: number;
  /** Kept messages that wait for a client that is behind; beyond, it is let go. */
  readonly kept: number;
}

export const usualLimits: ClientLimits = { bytes: 256 * 1024, kept: 2000 };

/**
 * One connected device with a bounded queue. One that does not read fast enough skips: when it has caught up it is told how many
 * messages it missed, gets the whole state, and then what is never dropped, in order.
 */
export class Client {
  readonly device: Device;
  /** Account of who signs here; the device's own id until it is known. */
  account: string;
  /** Station clock minus device clock, ms, as the device measured it last. */
  offset: number | undefined;
  /** Round trip of that measurement, ms. */
  roundTrip: number | undefined;
  readonly #socket: Socket;
  readonly #limits: ClientLimits;
  readonly #snapshot: () => Message;
  #sequence = 0;
  #skipped = 0;
  #kept: string[] = [];

  constructor(device: Device, socket: Socket, snapshot: () => Message, limits = usualLimits) {
    this.device = device;
    this.account = device.id;
    this.#socket = socket;
    this.#snapshot = snapshot;
    this.#limits = limits;
  }

  get behind(): boolean {
    return this.#skipped > 0 || this.#kept.length > 0;
  }

  /** @param text the message as JSON, made once for all clients */
  offer(text: string, weight: Weight): void {
    if (!this.behind && this.#fits(text)) {
      this.#write(text, weight !== 'moment');
      return;
    }
    if (weight !== 'kept') {
      this.#skipped++;
      this.#sequence++;
      return;
    }
    this.#kept.push(text);
    if (this.#kept.length > this.#limits.kept) this.#socket.close(1013, 'too far behind');
  }

  /** The first message, and the one after skipping. */
  sendSnapshot(): void {
    this.#write(JSON.stringify(this.#snapshot()));
  }

  #fits(text: string): boolean {
    return this.#socket.bufferedAmount + text.length + frameOverhead <= this.#limits.bytes;
  }

  #write(text: string, soon = true): void {
    this.#sequence++;
    this.#socket.send(`{"sequence":${this.#sequence},${text.slice(1)}`, soon, (error) => {
      if (error === undefined || error === null) this.#catchUp();
    });
  }

  /** Called whenever a frame has left: goes on once half of the room is free again. */
  #catchUp(): void {
    if (!this.behind || this.#socket.bufferedAmount > this.#limits.bytes / 2) return;
    const skipped = this.#skipped;
    const kept = this.#kept;
    this.#skipped = 0;
    this.#kept = [];
    if (skipped > 0) {
      this.#write(JSON.stringify({ type: 'behind', skipped }));
      this.sendSnapshot();
    }
    for (const [i, text] of kept.entries()) {
      if (!this.#fits(text)) {
        this.#kept = kept.slice(i);
        return;
      }
      this.#write(text);
    }
  }

  close(code: number, reason: string): void {
    this.#socket.close(code, reason);
  }

  terminate(): void {
    this.#socket.terminate();
  }
}

/** Header of a frame and the number put into it. */
const frameOverhead = 40;
