import type { GapPacket, HeaderPacket, SamplesPacket } from '@sthene/capture';
import { type LiveForces, liveForces } from './forces-now.ts';

/** Buckets a second: more than a screen has columns for the seconds it shows. */
const bucketsPerSecond = 200;

/** Finished buckets that wait to be sent. */
export interface EnvelopeRun {
  readonly first: number;
  readonly bucket: number;
  readonly rate: number;
  readonly total: readonly (number | null)[];
  readonly left?: readonly (number | null)[];
  readonly right?: readonly (number | null)[];
}

type Series = { low: number; high: number; out: (number | null)[] };

/**
 * Smallest and largest force of each bucket of samples, on a grid fixed by the sample index, so that the same samples give the
 * same buckets however they came in. A bucket with a missing sample is null.
 */
export class Envelope {
  readonly #rate: number;
  readonly #bucket: number;
  readonly #header: HeaderPacket;
  readonly #unit: string;
  #forces: LiveForces;
  #next: number | undefined;
  #first = 0;
  #broken = false;
  readonly #total: Series = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY, out: [] };
  readonly #left: Series = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY, out: [] };
  readonly #right: Series = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY, out: [] };

  constructor(header: HeaderPacket, unit = 'N') {
    this.#header = header;
    this.#unit = unit;
    this.#rate = header.promisedRate;
    this.#bucket = Math.max(1, Math.floor(header.promisedRate / bucketsPerSecond));
    this.#forces = liveForces(header, {}, unit);
  }

  zero(zeros: Readonly<Record<string, number>>): void {
    this.#forces = liveForces(this.#header, zeros, this.#unit);
  }

  samples(packet: SamplesPacket): void {
    this.#skipTo(packet.first);
    const { parts } = this.#forces;
    const { count, values } = packet;
    for (let i = (this.#next ?? packet.first) - packet.first; i < count; i++) {
      let total = 0;
      let left = 0;
      let right = 0;
      for (const { channel, side, gain, shift } of parts) {
        const force = (values[channel * count + i] as number) * gain - shift;
        total += force;
        if (side === 'left') left += force;
        else if (side === 'right') right += force;
      }
      this.#put(total, left, right);
    }
  }

  gap({ first, count }: Pick<GapPacket, 'first' | 'count'>): void {
    this.#skipTo(first + count);
  }

  #skipTo(index: number): void {
    if (this.#next === undefined) {
      this.#next = Math.ceil(index / this.#bucket) * this.#bucket;
      this.#first = this.#next;
      this.#next = Math.min(this.#next, index);
      this.#broken = this.#next % this.#bucket !== 0;
      return;
    }
    // A long gap is a few null buckets, then the grid goes on behind it.
    const furthest = this.#next + this.#rate;
    if (index > furthest) {
      this.take();
      this.#next = Math.floor(index / this.#bucket) * this.#bucket;
      this.#first = this.#next;
      this.#reset();
    }
    while (this.#next < index) this.#put(Number.NaN, Number.NaN, Number.NaN);
  }

  #put(total: number, left: number, right: number): void {
    this.#next = (this.#next as number) + 1;
    if (Number.isNaN(total)) this.#broken = true;
    widen(this.#total, total);
    widen(this.#left, left);
    widen(this.#right, right);
    if (this.#next % this.#bucket !== 0) return;
    if (this.#next > this.#first) {
      push(this.#total, this.#broken);
      if (this.#forces.hasLeft) push(this.#left, this.#broken);
      if (this.#forces.hasRight) push(this.#right, this.#broken);
    }
    this.#reset();
  }

  #reset(): void {
    this.#broken = false;
    for (const series of [this.#total, this.#left, this.#right]) {
      series.low = Number.POSITIVE_INFINITY;
      series.high = Number.NEGATIVE_INFINITY;
    }
  }

  /** The buckets since the last call; undefined when there are none. */
  take(): EnvelopeRun | undefined {
    const buckets = this.#total.out.length / 2;
    if (buckets === 0) return undefined;
    const run: EnvelopeRun = {
      first: this.#first,
      bucket: this.#bucket,
      rate: this.#rate,
      total: this.#total.out,
      ...(this.#forces.hasLeft ? { left: this.#left.out } : {}),
      ...(this.#forces.hasRight ? { right: this.#right.out } : {}),
    };
    this.#first += buckets * this.#bucket;
    for (const series of [this.#total, this.#left, this.#right]) series.out = [];
    return run;
  }
}

function widen(series: Series, value: number): void {
  if (value < series.low) series.low = value;
  if (value > series.high) series.high = value;
}

function push(series: Series, broken: boolean): void {
  if (broken) series.out.push(null, null);
  else series.out.push(tenth(series.low), tenth(series.high));
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
