/** A column of numbers that grows by doubling: memory follows what came, never what was promised. */
export class GrowingColumn {
  length = 0;
  private values = new Float64Array(1024);

  push(more: Float64Array): void {
    const need = this.length + more.length;
    if (need > this.values.length) {
      const bigger = new Float64Array(Math.max(need, this.values.length * 2));
      bigger.set(this.values.subarray(0, this.length));
      this.values = bigger;
    }
    this.values.set(more, this.length);
    this.length = need;
  }

  /** The values in an array of exactly their length. */
  finish(): Float64Array {
    const exact = this.values.slice(0, this.length);
    this.values = new Float64Array(0);
    return exact;
  }
}
