import { type Hello, livePath, liveProtocol, type ToStation } from '@sthene/contract';
import { bestReading, type ClockReading, readingOf, withReading } from './clock.ts';

/** The part of a WebSocket that is used; tests supply their own. */
export interface LinkSocket {
  readonly readyState: number;
  onopen: (() => void) | null;
  onmessage: ((event: { data: unknown }) => void) | null;
  onclose: ((event: { code: number }) => void) | null;
  send(data: string): void;
  close(code?: number): void;
}

/** A message as far as the link itself reads it. */
interface Numbered {
  readonly type: string;
  readonly sequence: number;
}

export interface LinkParts<M extends Numbered> {
  readonly socket: (url: string) => LinkSocket;
  readonly now: () => number;
  readonly later: (act: () => void, ms: number) => number;
  readonly forget: (timer: number) => void;
  /** Undefined when the text fits no message. */
  readonly parse: (text: unknown) => M | undefined;
  readonly hello: () => Omit<Hello, 'type' | 'protocol'>;
  readonly onMessage: (message: M, at: number) => void;
  readonly onLost: (at: number) => void;
  /** The station speaks another version, or something that is no message of this one. */
  readonly onOtherVersion: () => void;
}

const waits = [250, 500, 1000, 2000, 4000];
const probeEvery = 1000;
/** At the start a few probes in a row, so that the first command already has a good clock. */
const firstProbes = [0, 60, 150, 400];
/** Probes are answered at once; a link that is silent for this long is dead, whatever the socket says, ms. */
const silentFor = 3000;

/**
 * Keeps a connection to the station: says hello, numbers what arrives, measures the clock, and connects again when it breaks. What is
 * sent while there is no connection is lost on purpose.
 */
export class Link<M extends Numbered> {
  readonly #parts: LinkParts<M>;
  readonly #url: string;
  #socket: LinkSocket | undefined;
  #sequence: number | undefined;
  #complete = false;
  #failures = 0;
  #stopped = true;
  #timers: number[] = [];
  #readings: readonly ClockReading[] = [];
  #probes = new Map<string, number>();
  #probeCount = 0;
  #heardAt = 0;

  constructor(url: string, parts: LinkParts<M>) {
    this.#url = url;
    this.#parts = parts;
  }

  /** True from the first whole state on until the connection breaks. */
  get open(): boolean {
    return this.#complete && this.#socket?.readyState === 1;
  }

  /** Station clock now, ms; undefined before the first answer to a probe. */
  get stationNow(): number | undefined {
    const best = bestReading(this.#readings);
    return best === undefined ? undefined : this.#parts.now() + best.offset;
  }

  start(): void {
    this.#stopped = false;
    this.#connect();
  }

  stop(): void {
    this.#stopped = true;
    this.#drop();
  }

  /** Tries at once instead of after the wait. */
  retry(): void {
    if (this.open || this.#stopped) return;
    this.#drop();
    this.#connect();
  }

  /** @returns false when there is no connection; the message is then gone, never kept */
  send(message: ToStation): boolean {
    if (!this.open) return false;
    this.#socket?.send(JSON.stringify(message));
    return true;
  }

  #connect(): void {
    const socket = this.#parts.socket(this.#url);
    this.#socket = socket;
    this.#sequence = undefined;
    this.#complete = false;
    this.#readings = [];
    this.#probes.clear();
    this.#heardAt = this.#parts.now();
    const mine = (act: () => void) => () => {
      if (this.#socket === socket) act();
    };
    socket.onopen = mine(() => {
      socket.send(JSON.stringify({ type: 'hello', protocol: liveProtocol, ...this.#parts.hello() }));
      for (const wait of firstProbes) this.#later(() => this.#probe(), wait + 1);
      this.#watch();
    });
    socket.onmessage = (event) => {
      if (this.#socket === socket) this.#take(event.data);
    };
    socket.onclose = mine(() => this.#broken());
    this.#later(() => {
      if (!this.#complete) this.#broken();
    }, silentFor);
  }

  #take(data: unknown): void {
    const at = this.#parts.now();
    this.#heardAt = at;
    const message = this.#parts.parse(data);
    if (message === undefined) {
      // What cannot be read cannot be left out either: a cue or a stop may be in it.
      this.stop();
      this.#parts.onOtherVersion();
      return;
    }
    // A number is only missing where the station says that it skipped.
    const gap = this.#sequence !== undefined && message.sequence !== this.#sequence + 1;
    const whole = message.type === 'behind' || message.type === 'snapshot' || message.type === 'wall';
    if (gap && !whole) {
      this.#broken();
      return;
    }
    this.#sequence = message.sequence;
    if (message.type === 'probe') this.#answered(message as unknown as ProbeAnswer, at);
    if (message.type === 'snapshot' || message.type === 'wall') {
      this.#complete = true;
      this.#failures = 0;
    }
    this.#parts.onMessage(message, at);
  }

  #probe(): void {
    const socket = this.#socket;
    if (socket === undefined || socket.readyState !== 1) return;
    const id = `p${++this.#probeCount}`;
    const t0 = this.#parts.now();
    this.#probes.set(id, t0);
    const last = bestReading(this.#readings);
    socket.send(JSON.stringify({ type: 'probe', id, t0, ...(last === undefined ? {} : { last }) }));
  }

  #answered({ id, t1, t2 }: ProbeAnswer, t3: number): void {
    const t0 = this.#probes.get(id);
    if (t0 === undefined) return;
    this.#probes.delete(id);
    this.#readings = withReading(this.#readings, readingOf(t0, t1, t2, t3));
  }

  #watch(): void {
    this.#later(() => {
      if (this.#parts.now() - this.#heardAt > silentFor) this.#broken();
      else {
        this.#probe();
        this.#watch();
      }
    }, probeEvery);
  }

  #broken(): void {
    if (this.#stopped) return;
    this.#drop();
    this.#parts.onLost(this.#parts.now());
    const wait = waits[Math.min(this.#failures, waits.length - 1)] as number;
    this.#failures++;
    this.#later(() => this.#connect(), wait);
  }

  #drop(): void {
    for (const timer of this.#timers) this.#parts.forget(timer);
    this.#timers = [];
    const socket = this.#socket;
    this.#socket = undefined;
    this.#complete = false;
    if (socket !== undefined) {
      socket.onopen = null;
      socket.onmessage = null;
      socket.onclose = null;
      socket.close();
    }
  }

  #later(act: () => void, ms: number): void {
    this.#timers.push(this.#parts.later(act, ms));
  }
}

interface ProbeAnswer {
  readonly id: string;
  readonly t1: number;
  readonly t2: number;
}

/** Address of the live connection of the page's own station. */
export function liveAddress(page: { readonly protocol: string; readonly host: string }): string {
  return `${page.protocol === 'https:' ? 'wss' : 'ws'}://${page.host}${livePath}`;
}
