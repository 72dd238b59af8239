import type { GapPacket, HeaderPacket, SamplesPacket } from '@sthene/capture';

/** The last raw samples of a rig by their index, as received; a missing one is NaN. */
export class RecentSamples {
  readonly header: HeaderPacket;
  readonly #capacity: number;
  readonly #columns: Float64Array[];
  #first: number | undefined;
  #next = 0;

  constructor(header: HeaderPacket, seconds = 64) {
    this.header = header;
    this.#capacity = Math.ceil(seconds * header.promisedRate);
    this.#columns = header.channels.map(() => new Float64Array(this.#capacity).fill(Number.NaN));
  }

  /** Index after the newest sample. */
  get next(): number {
    return this.#next;
  }

  /** Oldest index that is still here. */
  get oldest(): number {
    return Math.max(this.#first ?? 0, this.#next - this.#capacity);
  }

  samples(packet: SamplesPacket): void {
    this.#skipTo(packet.first);
    const from = Math.max(0, this.#next - packet.first);
    for (let c = 0; c < this.#columns.length; c++) {
      const column = this.#columns[c] as Float64Array;
      let at = (packet.first + from) % this.#capacity;
      for (let i = from; i < packet.count; i++) {
        column[at] = packet.values[c * packet.count + i] as number;
        if (++at === this.#capacity) at = 0;
      }
    }
    this.#next = Math.max(this.#next, packet.first + packet.count);
  }

  gap(packet: Pick<GapPacket, 'first' | 'count'>): void {
    this.#skipTo(packet.first + packet.count);
  }

  #skipTo(index: number): void {
    if (this.#first === undefined) {
      this.#first = index;
      this.#next = index;
    }
    for (let i = Math.max(this.#next, index - this.#capacity); i < index; i++)
      for (const column of this.#columns) column[i % this.#capacity] = Number.NaN;
    this.#next = Math.max(this.#next, index);
  }

  /** Raw values of one channel over [start, end); what is no longer or not yet here is NaN. */
  copy(channel: number, start: number, end: number): Float64Array {
    const out = new Float64Array(end - start).fill(Number.NaN);
    const column = this.#columns[channel];
    if (column === undefined) return out;
    const from = Math.max(start, this.oldest);
    const to = Math.min(end, this.#next);
    for (let i = from; i < to; i++) out[i - start] = column[i % this.#capacity] as number;
    return out;
  }

  /** Mean of what is here of one channel over [start, end); 0 where nothing is. */
  mean(channel: number, start: number, end: number): number {
    const column = this.#columns[channel] as Float64Array;
    let sum = 0;
    let count = 0;
    for (let i = Math.max(start, this.oldest); i < Math.min(end, this.#next); i++) {
      const value = column[i % this.#capacity] as number;
      if (Number.isNaN(value)) continue;
      sum += value;
      count++;
    }
    return count === 0 ? 0 : sum / count;
  }
}
