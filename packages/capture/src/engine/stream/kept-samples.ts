import type { SampleSpan } from '@sthene/core';

/** The last samples of every force channel and of the signals it is made of, raw, by their index in the stream. A missing sample is NaN. */
export class KeptSamples {
  readonly capacity: number;
  readonly #rings: readonly Float64Array[];
  #next: number;
  readonly #start: number;

  constructor(channels: number, capacity: number, first: number) {
    this.capacity = capacity;
    this.#rings = Array.from({ length: channels }, () => new Float64Array(capacity).fill(Number.NaN));
    this.#next = first;
    this.#start = first;
  }

  /** Index of the sample that comes next. */
  get next(): number {
    return this.#next;
  }

  /** Oldest sample still kept. */
  get oldest(): number {
    return Math.max(this.#start, this.#next - this.capacity);
  }

  /** Appends samples [from, from + count) of a packet's run; channel c of the ring is `columns[c]` of the packet. */
  append(values: Float64Array, stride: number, columns: readonly number[], from: number, count: number): void {
    const { capacity } = this;
    for (let c = 0; c < this.#rings.length; c++) {
      const ring = this.#rings[c] as Float64Array;
      const base = (columns[c] as number) * stride + from;
      let at = this.#next % capacity;
      for (let i = 0; i < count; i++) {
        ring[at] = values[base + i] as number;
        if (++at === capacity) at = 0;
      }
    }
    this.#next += count;
  }

  /** Appends missing samples. */
  skip(count: number): void {
    for (const ring of this.#rings) {
      if (count >= this.capacity) ring.fill(Number.NaN);
      else for (let i = 0; i < count; i++) ring[(this.#next + i) % this.capacity] = Number.NaN;
    }
    this.#next += count;
  }

  /** The ring of a channel: sample n lies at n % capacity. */
  ring(channel: number): Float64Array {
    return this.#rings[channel] as Float64Array;
  }

  /** A copy of one channel over a span that is still kept. */
  copy(channel: number, { start, end }: SampleSpan): Float64Array {
    if (start < this.oldest || end > this.#next) {
      throw new RangeError(`Samples [${start}, ${end}) are not kept; [${this.oldest}, ${this.#next}) are.`);
    }
    const out = new Float64Array(end - start);
    const ring = this.ring(channel);
    const from = start % this.capacity;
    const first = ring.subarray(from, Math.min(this.capacity, from + out.length));
    out.set(first);
    if (first.length < out.length) out.set(ring.subarray(0, out.length - first.length), first.length);
    return out;
  }
}
