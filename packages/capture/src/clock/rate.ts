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

const pointSpacing = 0.05;

/**
 * Measures the true rate of a stream: least-squares line of receive (or device) time over sample counts, over a sliding window.
 *
 * Points are thinned to 20 a second. Transport delay that varies widens the uncertainty but leaves the slope unbiased. Two
 * standard errors are reported, from the scatter about the line: rate^2 * 2 s / sqrt(sum (x - mean x)^2).
 */
export class RateMeter {
  readonly #window: number;
  #counts: number[] = [];
  #times: number[] = [];
  #fit: TimeLine | undefined;

  /** @param window seconds the fit looks back; a drifting rate is followed with half of it as delay */
  constructor(window = 30) {
    this.#window = window;
  }

  /** A sample count and the time it was reached, s; times that do not rise by 50 ms are left aside. */
  add(count: number, seconds: number): void {
    const last = this.#times.at(-1);
    if (last !== undefined && seconds - last < pointSpacing) return;
    this.#counts.push(count);
    this.#times.push(seconds);
    this.#fit = undefined;
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
  let stt = 0;
  for (let i = 0; i < n; i++) {
    const dx = (x[i] as number) - x0 - mx;
    const dt = (t[i] as number) - t0 - mt;
    sxx += dx * dx;
    sxt += dx * dt;
    stt += dt * dt;
  }
  const period = sxt / sxx;
  const residual = Math.sqrt(Math.max(0, stt - period * sxt) / Math.max(1, n - 2));
  const rate = 1 / period;
  return {
    rate,
    uncertainty: rate * rate * 2 * (residual / Math.sqrt(sxx)),
    residual,
    origin: t0 + mt - period * (x0 + mx),
    span,
  };
}
