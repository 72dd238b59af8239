/** Samples that were given up as missing, so that one that comes after all is told from one that comes twice. */
export class GivenUp {
  #spans: { start: number; end: number }[] = [];

  add(start: number, end: number): void {
    this.#spans.push({ start, end });
    // Older losses lie further back than anything is believed to come late.
    if (this.#spans.length > 1000) this.#spans.splice(0, 500);
  }

  /** True when [start, end) was missing; it no longer is after that. */
  take(start: number, end: number): boolean {
    const at = this.#spans.findIndex((span) => start >= span.start && end <= span.end);
    const span = this.#spans[at];
    if (span === undefined) return false;
    const rest = [
      { start: span.start, end: start },
      { start: end, end: span.end },
    ];
    this.#spans.splice(at, 1, ...rest.filter((one) => one.start < one.end));
    return true;
  }
}
