import type { HeaderPacket, Packet, RecordedSpan } from '@sthene/capture';
import type { RigState } from '@sthene/contract';
import type { MonotonicNanoseconds, SampleSpan, UtcInstant } from '@sthene/core';
import { type Counts, counted, noCounts } from './counts.ts';
import { Envelope } from './envelope.ts';
import { RecentSamples } from './recent.ts';
import { stateOfStatus } from './rig-words.ts';
import { meansNow, noiseOver, spanOf } from './spans.ts';
import { StreamClock } from './stream-clock.ts';

/** What is known of a rig's stream: how it stands, its newest samples, its rate and its zero. Holds no source and no engine. */
export class RigStream {
  state: RigState = 'starting';
  words = 'The sources are being opened.';
  counts: Counts = noCounts;
  header: HeaderPacket | undefined;
  recent: RecentSamples | undefined;
  envelope: Envelope | undefined;
  measuredRate: number | undefined;
  rateUncertainty: number | undefined;
  clockAt: MonotonicNanoseconds | undefined;
  lastSampleAt: MonotonicNanoseconds | undefined;
  zeroAt: UtcInstant | undefined;
  zeros: Readonly<Record<string, number>> = {};
  noise: Readonly<Record<string, number>> = {};
  #clock: StreamClock | undefined;
  #closing = false;
  readonly #changed: () => void;

  /** @param changed told when the stream stands otherwise than before */
  constructor(changed: () => void) {
    this.#changed = changed;
  }

  count(packet: Packet): void {
    this.counts = counted(this.counts, packet);
  }

  note(packet: Packet): void {
    switch (packet.kind) {
      case 'header':
        this.#opened(packet);
        break;
      case 'samples':
        this.lastSampleAt = packet.at;
        this.recent?.samples(packet);
        this.envelope?.samples(packet);
        this.#clock?.samples(packet);
        if (this.state !== 'measuring') this.#become('measuring', 'The plates are measuring.');
        break;
      case 'gap':
        this.recent?.gap(packet);
        this.envelope?.gap(packet);
        break;
      case 'status':
        this.#become(stateOfStatus[packet.state], packet.words);
        break;
      case 'clock':
        this.clockAt = packet.at;
        this.measuredRate = packet.measuredRate ?? this.measuredRate;
        this.rateUncertainty = packet.rateUncertainty ?? this.rateUncertainty;
        break;
      case 'end':
        if (!this.#closing) this.#become('closed', 'The source has ended.');
        break;
    }
  }

  #opened(header: HeaderPacket): void {
    if (this.header !== undefined) return;
    this.header = header;
    this.recent = new RecentSamples(header);
    this.envelope = new Envelope(header);
    this.#clock = new StreamClock(header.promisedRate);
  }

  #become(state: RigState, words: string): void {
    const changed = state !== this.state;
    this.state = state;
    this.words = words;
    if (changed) this.#changed();
  }

  /** The next header is of another recording: nothing of the one before is kept. */
  another(): void {
    this.header = undefined;
  }

  /** The end that comes now was asked for. */
  closing(): void {
    this.#closing = true;
  }

  closed(): void {
    this.state = 'closed';
    this.words = 'The rig is closed.';
  }

  /** A zero was taken over a quiet window: newtons by channel. */
  zeroed(zeros: Readonly<Record<string, number>>, window: SampleSpan, at: UtcInstant): void {
    this.zeroAt = at;
    this.zeros = zeros;
    this.envelope?.zero(zeros);
    this.noise = this.recent === undefined ? {} : noiseOver(this.recent, window);
  }

  /** Index after the newest sample. */
  get next(): number {
    return this.recent?.next ?? 0;
  }

  /** The rate indices are spaced by, Hz. */
  get rate(): number {
    return this.header?.promisedRate ?? 1000;
  }

  /** Samples a second of station time, by their arrivals. */
  get rateNow(): number {
    return this.#clock?.rate ?? this.rate;
  }

  /** How long ago a sample was taken, s. */
  secondsAgo(sample: number): number {
    return (this.next - sample) / (this.#clock?.recentRate ?? this.rate);
  }

  /** When a sample was taken by the station's clock, ms; undefined before any came. */
  millisecondsOf(sample: number): number | undefined {
    return this.#clock?.timeOf(sample);
  }

  /** The same in seconds. */
  timeOf(sample: number): number | undefined {
    const milliseconds = this.millisecondsOf(sample);
    return milliseconds === undefined ? undefined : milliseconds / 1000;
  }

  /** Index of the sample that was taken at a time; the next one where that is not known. */
  sampleAt(at: MonotonicNanoseconds | undefined): number {
    const sample = at === undefined ? this.next : (this.#clock?.sampleAt(at) ?? this.next);
    return Math.round(Math.max(0, sample));
  }

  /** The machine was asleep: the rate is compared with what it was. False before there is a stream. */
  wokeUp(): boolean {
    this.#clock?.wokeUp();
    return this.#clock !== undefined;
  }

  /** Says once after a sleep whether the plates run as before; undefined while there is nothing to say. */
  checkRate(): boolean | undefined {
    return this.#clock?.checkRate();
  }

  /** Mean of each channel over the last 100 ms, in its own unit, without its zero. */
  channelsNow(): { readonly name: string; readonly value: number }[] {
    return this.recent === undefined ? [] : meansNow(this.recent, this.zeros);
  }

  /** Raw channels over a span: the vertical ones as the engine analyses them, and the others beside them. */
  span(span: SampleSpan, unit: string, sampleRate: number): RecordedSpan {
    if (this.recent === undefined) throw new Error('The rig has no stream.');
    return spanOf(this.recent, span, unit, sampleRate);
  }
}
