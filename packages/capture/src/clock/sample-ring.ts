/** The newest samples of one stream by their index; missing ones are NaN. */
export class SampleRing {
  readonly channels: number;
  readonly #capacity: number;
  readonly #values: Float64Array;
  /** Known samples: [start, end). */
  start = 0;
  end = 0;
  #empty = true;

  constructor(channels: number, capacity: number) {
    this.channels = channels;
    this.#capacity = capacity;
    this.#values = new Float64Array(channels * capacity);
  }

  /** Appends samples, channel after channel; what lies between is missing. Older ones than the newest are passed over. */
  append(first: number, count: number, values: Float64Array | undefined): void {
    if (this.#empty) {
      this.start = first;
      this.end = first;
      this.#empty = false;
    }
    const from = Math.max(first, this.end);
    const to = first + count;
    // Of a gap longer than the ring only the end can be kept.
    if (to - this.end > this.#capacity) this.end = to - this.#capacity;
    for (let n = this.end; n < to; n++) {
      const at = (n % this.#capacity) * this.channels;
      for (let c = 0; c < this.channels; c++) {
        this.#values[at + c] =
          values === undefined || n < from ? Number.NaN : (values[c * count + n - first] as number);
      }
    }
    this.end = Math.max(this.end, to);
    this.start = Math.max(this.start, this.end - this.#capacity);
  }

  /** One value; NaN where it is missing or no longer kept. */
  at(index: number, channel: number): number {
    if (index < this.start || index >= this.end) return Number.NaN;
    return this.#values[(index % this.#capacity) * this.channels + channel] as number;
  }
}
