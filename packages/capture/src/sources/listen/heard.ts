import { RateMeter } from '../../clock/rate.ts';
import { secondsBetween } from '../../clock/time.ts';
import type {
  FaultPacket,
  HeaderPacket,
  Packet,
  SamplesPacket,
  StatusPacket,
  StreamChannel,
} from '../../packets/packet.ts';

/** What became of the samples, as it would be recorded. */
export interface HeardCounts {
  readonly samples: number;
  readonly gaps: number;
  readonly missing: number;
  readonly faults: Readonly<Record<FaultPacket['fault'], number>>;
}

/** One channel over the last seconds, in its unit. */
export interface HeardChannel {
  readonly channel: StreamChannel;
  /** Last value as received. */
  readonly raw: number;
  readonly last: number;
  readonly mean: number;
  readonly min: number;
  readonly max: number;
  readonly sd: number;
  /** True when a value of these seconds stood at an end of the range the channel, or a signal it is made of, can give. */
  readonly saturated: boolean;
}

export interface HeardView {
  readonly header: HeaderPacket | undefined;
  readonly counts: HeardCounts;
  readonly rate?: { readonly measured: number; readonly uncertainty: number };
  readonly channels: readonly HeardChannel[];
  /** The last state the source told. */
  readonly told: StatusPacket | undefined;
}

/** Seconds over which values are summed up. */
const windowSeconds = 2;

/** Folds the packets of a source into what a person who sets it up wants to see. Keeps the samples of two seconds. */
export class Heard {
  #header: HeaderPacket | undefined;
  #meter: RateMeter | undefined;
  #recent: SamplesPacket[] = [];
  #told: StatusPacket | undefined;
  #counts = { samples: 0, gaps: 0, missing: 0 };
  readonly #faults = { doubled: 0, late: 0, swapped: 0, checksum: 0, unreadable: 0 };

  take(packet: Packet): void {
    switch (packet.kind) {
      case 'header':
        this.#header = packet;
        this.#meter = new RateMeter(packet.promisedRate);
        return;
      case 'samples':
        this.#samples(packet);
        return;
      case 'gap':
        this.#counts.gaps++;
        this.#counts.missing += packet.count;
        return;
      case 'fault':
        this.#faults[packet.fault] += packet.count;
        return;
      case 'status':
        this.#told = packet;
        return;
    }
  }

  #samples(packet: SamplesPacket): void {
    this.#counts.samples += packet.count;
    const header = this.#header;
    if (header === undefined) return;
    this.#meter?.add(packet.first + packet.count, secondsBetween(header.at, packet.at));
    this.#recent.push(packet);
    let kept = this.#recent.reduce((sum, { count }) => sum + count, 0);
    for (let first = this.#recent[0]; first !== undefined && this.#recent.length > 1; first = this.#recent[0]) {
      if (kept - first.count < windowSeconds * header.promisedRate) break;
      kept -= first.count;
      this.#recent.shift();
    }
  }

  view(): HeardView {
    const line = this.#meter?.line();
    return {
      header: this.#header,
      counts: { ...this.#counts, faults: { ...this.#faults } },
      ...(line === undefined ? {} : { rate: { measured: line.rate, uncertainty: line.uncertainty } }),
      channels: withSignals((this.#header?.channels ?? []).flatMap((channel, c) => this.#channel(channel, c) ?? [])),
      told: this.#told,
    };
  }

  #channel(channel: StreamChannel, c: number): HeardChannel | undefined {
    const { scale, offset, rawRange } = channel;
    let n = 0;
    let raw = Number.NaN;
    let mean = 0;
    let squares = 0;
    let min = Number.POSITIVE_INFINITY;
    let max = Number.NEGATIVE_INFINITY;
    let saturated = false;
    for (const { count, values } of this.#recent) {
      for (let i = 0; i < count; i++) {
        const sample = values[c * count + i] as number;
        // A made sample is missing where it could not be made.
        if (Number.isNaN(sample)) continue;
        raw = sample;
        const value = (raw - offset) * scale;
        if (rawRange !== undefined && (raw <= rawRange[0] || raw >= rawRange[1])) saturated = true;
        n++;
        const d = value - mean;
        mean += d / n;
        squares += d * (value - mean);
        if (value < min) min = value;
        if (value > max) max = value;
      }
    }
    if (n === 0) return undefined;
    const sd = n < 2 ? 0 : Math.sqrt(squares / (n - 1));
    return { channel, raw, last: (raw - offset) * scale, mean, min, max, sd, saturated };
  }
}

/** A made channel stands at its limit where a signal of it does. */
function withSignals(channels: readonly HeardChannel[]): HeardChannel[] {
  const full = new Set(channels.flatMap(({ channel, saturated }) => (saturated ? [channel.name] : [])));
  return channels.map((one) => ({
    ...one,
    saturated: one.saturated || one.channel.madeOf?.some(({ channel }) => full.has(channel)) === true,
  }));
}
