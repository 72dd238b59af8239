/** A fitted straight line of time over counts. */
export interface TimeLine {
  /** Hz. */
  readonly rate: number;
  /** Two standard errors of the rate, Hz. */
  readonly uncertainty: number;
  /** SD of the times about the line, s. */
  readonly residual: number;
  /** Seconds at sample 0 of the stream, by this line. */
  readonly origin: number;
  /** Seconds the fit spans. */
  readonly span: number;
}

/** Length of the slots of which one point each is kept, s. */
const slot = 0.1;

/**
 * Measures the true rate of a stream: least-squares line of receive (or device) time over sample counts, over a sliding window.
 *
 * Of every tenth of a second the point that travelled fastest is kept, for delays of a transport only ever add. Two standard
 * errors are reported, from the scatter about the line: rate^2 * 2 s / sqrt(sum (x - mean x)^2).
 */
export class RateMeter {
  readonly #period: number;
  readonly #window: number;
  #counts: number[] = [];
  #times: number[] = [];
  #slot: { readonly from: number; count: number; time: number } | undefined;
  #fit: TimeLine | undefined;

  /**
   * @param promisedRate Hz; only tells which of two points travelled faster
   * @param window seconds the fit looks back; a drifting rate is followed with half of it as delay
   */
  constructor(promisedRate: number, window = 30) {
    this.#period = 1 / promisedRate;
    this.#window = window;
  }

  /** A sample count and the time it was reached, s; times that go back are left aside. */
  add(count: number, seconds: number): void {
    const open = this.#slot;
    if (open === undefined) {
      this.#slot = { from: seconds, count, time: seconds };
      return;
    }
    if (seconds < open.from) return;
    if (seconds - open.from < slot) {
      if (seconds - open.time < (count - open.count) * this.#period) Object.assign(open, { count, time: seconds });
      return;
    }
    this.#counts.push(open.count);
    this.#times.push(open.time);
    this.#fit = undefined;
    this.#slot = { from: seconds, count, time: seconds };
    if (this.#times.length > 64 && seconds - (this.#times[32] as number) > this.#window) {
      this.#counts = this.#counts.slice(32);
      this.#times = this.#times.slice(32);
    }
  }

  /** The line so far; undefined before one second or with fewer than five points. */
  line(): TimeLine | undefined {
    const n = this.#times.length;
    const span = n === 0 ? 0 : (this.#times.at(-1) as number) - (this.#times[0] as number);
    if (n < 5 || span < 1) return undefined;
    this.#fit ??= fitLine(this.#counts, this.#times, span);
    return this.#fit;
  }

  /** After an interruption whose length is not known to a sample. */
  restart(): void {
    this.#counts = [];
    this.#times = [];
    this.#slot = undefined;
    this.#fit = undefined;
  }
}

function fitLine(x: readonly number[], t: readonly number[], span: number): TimeLine {
  const n = x.length;
  const x0 = x[0] as number;
  const t0 = t[0] as number;
  let mx = 0;
  let mt = 0;
  for (let i = 0; i < n; i++) {
    mx += ((x[i] as number) - x0) / n;
    mt += ((t[i] as number) - t0) / n;
  }
  let sxx = 0;
  let sxt = 0;
  for (let i = 0; i < n; i++) {
    const dx = (x[i] as number) - x0 - mx;
    const dt = (t[i] as number) - t0 - mt;
    sxx += dx * dx;
    sxt += dx * dt;
  }
  const period = sxt / sxx;
  // A second pass: the difference of two large sums would hide a small scatter.
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const off = (t[i] as number) - t0 - mt - period * ((x[i] as number) - x0 - mx);
    squares += off * off;
  }
  const residual = Math.sqrt(squares / Math.max(1, n - 2));
  const rate = 1 / period;
  return {
    rate,
    uncertainty: rate * rate * 2 * (residual / Math.sqrt(sxx)),
    residual,
    origin: t0 + mt - period * (x0 + mx),
    span,
  };
}
