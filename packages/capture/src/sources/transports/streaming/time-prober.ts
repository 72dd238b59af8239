import { createSocket, type Socket } from 'node:dgram';
import type { CaptureClock } from '../../../clock/clock.ts';
import { bestOffset, type ClockOffset, type ProbeTimes, probing } from '../../../streaming/clock-offset.ts';
import { readTimeAnswer, writeTimeProbe } from '../../../streaming/time-probe.ts';

/** An answer names the time it was asked at; clocks print it with more or fewer digits, s. */
const samePrint = 0.002;

/** Asks a sender for its time again and again: eight probes, a pause of two seconds, and so on. */
export class TimeProber {
  readonly #target: { readonly address: string; readonly port: number };
  readonly #clock: CaptureClock;
  readonly #told: (offset: ClockOffset | undefined) => void;
  #socket: Socket | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #wave = 0;
  #asked: number[] = [];
  #times: ProbeTimes[] = [];

  /** @param told called after each burst; undefined: too few probes came back in time */
  constructor(
    target: { readonly address: string; readonly port: number },
    clock: CaptureClock,
    told: (offset: ClockOffset | undefined) => void,
  ) {
    this.#target = target;
    this.#clock = clock;
    this.#told = told;
  }

  start(): void {
    const socket = createSocket('udp4');
    this.#socket = socket;
    socket.on('error', () => {});
    socket.on('message', (bytes) => this.#answered(bytes));
    socket.bind(0, () => this.#burst());
  }

  stop(): void {
    clearTimeout(this.#timer);
    const socket = this.#socket;
    this.#socket = undefined;
    socket?.close();
  }

  get #now(): number {
    return Number(this.#clock.monotonic()) / 1e9;
  }

  #burst(): void {
    this.#wave = (this.#wave % 1_000_000) + 1;
    this.#asked = [];
    this.#times = [];
    const probe = (left: number): void => {
      if (this.#socket === undefined) return;
      if (left === 0) {
        this.#told(bestOffset(this.#times));
        this.#later(1000 * probing.pause, () => this.#burst());
        return;
      }
      const sent = this.#now;
      this.#asked.push(sent);
      const { address, port } = this.#target;
      this.#socket.send(writeTimeProbe({ wave: String(this.#wave), sent }), port, address, () => {});
      // After the last one its answer is awaited.
      this.#later(left === 1 ? 1000 * probing.longest : probing.everyMilliseconds, () => probe(left - 1));
    };
    probe(probing.probes);
  }

  #later(milliseconds: number, act: () => void): void {
    this.#timer = setTimeout(act, milliseconds);
  }

  #answered(bytes: Uint8Array): void {
    const back = this.#now;
    const answer = readTimeAnswer(bytes);
    if (!answer.ok || answer.value.wave !== String(this.#wave)) return;
    const { sent: said, received, answered } = answer.value;
    const at = this.#asked.findIndex((sent) => Math.abs(sent - said) < samePrint);
    const [sent] = at < 0 ? [] : this.#asked.splice(at, 1);
    if (sent !== undefined) this.#times.push({ sent, received, answered, back });
  }
}
