import type { SampleSpan } from '@sthene/core';
import { longestFilledGap, meanOf } from '@sthene/core';
import type { HeaderPacket, SamplesPacket, StreamChannel } from '../../packets/packet.ts';
import { type Block, blockLength, blockOf } from './block.ts';
import { KeptSamples } from './kept-samples.ts';
import { isBeside, layoutOf, type RigLayout } from './layout.ts';

/** Long enough for the stand before a pull, the longest pull and its end. */
const keptSeconds = 34;

/** What the stream tells its reader, in order of samples. */
export interface StreamReader {
  block(block: Block): void;
  /** More than 5 ms are missing: [first, end). Said while the index still stands at the first. */
  longGap(span: SampleSpan): void;
}

/** One rig's stream as forces: keeps what was received, counts what was not, and sums up blocks. */
export class RigStream {
  readonly header: HeaderPacket;
  readonly layout: RigLayout;
  readonly block: number;
  /** Zero of each force channel, in the unit of the test. */
  zeros: number[];
  /** Zero of shear forces and moments by name, in the unit of each. */
  readonly #beside: Record<string, number> = {};
  readonly #reader: StreamReader;
  readonly #columns: readonly number[];
  #kept: KeptSamples | undefined;
  readonly #measured: { rate?: number } = {};

  constructor(header: HeaderPacket, unit: string, zeros: Readonly<Record<string, number>>, reader: StreamReader) {
    this.header = header;
    this.layout = layoutOf(header, unit);
    this.block = blockLength(header.promisedRate);
    this.zeros = this.layout.channels.map(({ channel }) => zeros[channel.name] ?? 0);
    for (const { channel } of this.layout.signals) {
      const zero = zeros[channel.name];
      if (isBeside(channel) && zero !== undefined) this.#beside[channel.name] = zero;
    }
    this.#columns = [...this.layout.channels, ...this.layout.signals].map(({ index }) => index);
    this.#reader = reader;
  }

  /** Rate of the analysis, Hz: the promised one while the measured one is within 0.05 % of it, else the measured one. */
  get rate(): number {
    const promised = this.header.promisedRate;
    const measured = this.#measured.rate;
    return measured === undefined || Math.abs(measured - promised) <= 0.0005 * promised ? promised : measured;
  }

  measured(rate: number): void {
    this.#measured.rate = rate;
  }

  get next(): number {
    return this.#kept?.next ?? 0;
  }

  get kept(): KeptSamples {
    if (this.#kept === undefined) throw new Error('No sample has been received yet.');
    return this.#kept;
  }

  /** Takes what every channel shows over a span of empty plates as its zero. */
  zero(span: SampleSpan): void {
    const { channels, signals } = this.layout;
    const shown = ({ offset, scale }: StreamChannel, column: number) =>
      (meanOf(this.kept.copy(column, span)) - offset) * scale;
    this.zeros = channels.map(({ channel, factor }, c) => shown(channel, c) * factor);
    signals.forEach(({ channel }, c) => {
      if (isBeside(channel)) this.#beside[channel.name] = shown(channel, channels.length + c);
    });
  }

  /** Takes over zeros of the same plates that were taken elsewhere. */
  take(zeros: Readonly<Record<string, number>>): void {
    const { channels, signals } = this.layout;
    this.zeros = channels.map(({ channel }, at) => zeros[channel.name] ?? (this.zeros[at] as number));
    for (const { channel } of signals) {
      const zero = zeros[channel.name];
      if (isBeside(channel) && zero !== undefined) this.#beside[channel.name] = zero;
    }
  }

  zerosByName(): Record<string, number> {
    const forces = this.layout.channels.map(({ channel }, at) => [channel.name, this.zeros[at] as number] as const);
    return { ...Object.fromEntries(forces), ...this.#beside };
  }

  samples(packet: SamplesPacket): void {
    const kept = this.#begin(packet.first);
    if (packet.first > kept.next) this.gap(kept.next, packet.first - kept.next);
    let from = Math.max(0, kept.next - packet.first);
    while (from < packet.count) {
      const take = Math.min(packet.count - from, this.#toBoundary());
      kept.append(packet.values, packet.count, this.#columns, from, take);
      from += take;
      this.#finishBlock();
    }
  }

  /** Missing samples [first, first + count); what is already known is passed over. */
  gap(first: number, count: number): void {
    const kept = this.#begin(first);
    if (first > kept.next) this.#miss(first - kept.next);
    const missing = first + count - kept.next;
    if (missing > 0) this.#miss(missing);
  }

  #miss(count: number): void {
    const kept = this.kept;
    const start = kept.next;
    // The small excess keeps five samples at 1 kHz inside, as in filling.
    if (count > longestFilledGap * this.rate + 1e-9) {
      // Told first: what came before a long gap may not be kept after it.
      this.#reader.longGap({ start, end: start + count });
      kept.skip(count);
      return;
    }
    let left = count;
    while (left > 0) {
      const take = Math.min(left, this.#toBoundary());
      kept.skip(take);
      left -= take;
      this.#finishBlock();
    }
  }

  #begin(first: number): KeptSamples {
    this.#kept ??= new KeptSamples(
      this.#columns.length,
      this.block * Math.ceil((keptSeconds * this.header.promisedRate) / this.block),
      first,
    );
    return this.#kept;
  }

  #toBoundary(): number {
    return this.block - (this.kept.next % this.block);
  }

  #finishBlock(): void {
    const { next, oldest } = this.kept;
    if (next % this.block !== 0 || next - this.block < oldest) return;
    const block = blockOf(this.kept, this.layout, this.zeros, next - this.block, next);
    if (block !== undefined) this.#reader.block(block);
  }
}
