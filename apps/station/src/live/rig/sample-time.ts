import type { SamplesPacket } from '@sthene/capture';
import type { MonotonicNanoseconds } from '@sthene/core';

/** Seconds of arrivals the rate is taken over. */
const windowSeconds = 2;

/**
 * Places station times on a rig's samples by the arrivals of the last two seconds: the earliest arrival against its index fixes
 * the line, because a packet can only come late.
 */
export class SampleTime {
  readonly #promised: number;
  #dropped = false;
  #arrivals: { readonly at: number; readonly next: number }[] = [];

  constructor(promisedRate: number) {
    this.#promised = promisedRate;
  }

  samples({ first, count, at }: Pick<SamplesPacket, 'first' | 'count' | 'at'>): void {
    const seconds = Number(at) / 1e9;
    this.#arrivals.push({ at: seconds, next: first + count });
    while (this.#arrivals.length > 2 && (this.#arrivals[0]?.at ?? 0) < seconds - windowSeconds) {
      this.#arrivals.shift();
      this.#dropped = true;
    }
  }

  /** Samples a second of real time, by arrivals; the promised rate until there is a second of them. */
  get rate(): number {
    const first = this.#arrivals[0];
    const last = this.#arrivals.at(-1);
    if (first === undefined || last === undefined || last.at - first.at < 1) return this.#promised;
    return (last.next - first.next) / (last.at - first.at);
  }

  /** True once the rate was seen over the whole window, so that a burst after a stand-still has gone by. */
  get settled(): boolean {
    const first = this.#arrivals[0];
    const last = this.#arrivals.at(-1);
    return this.#dropped && first !== undefined && last !== undefined && last.at - first.at >= windowSeconds / 2;
  }

  /** Index of the sample taken at a station time; undefined before any came. */
  sampleAt(at: MonotonicNanoseconds): number | undefined {
    const { rate } = this;
    const seconds = Number(at) / 1e9;
    let best: number | undefined;
    for (const one of this.#arrivals) {
      const index = one.next + (seconds - one.at) * rate;
      if (best === undefined || index > best) best = index;
    }
    return best;
  }
}
