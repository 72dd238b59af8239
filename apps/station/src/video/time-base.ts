import type { SamplesPacket } from '@sthene/capture';

/** One arrival in each stretch of this length is kept, s. */
const stretch = 0.5;
/** Stretches that are remembered: efforts and the minute before them. */
const remembered = 240;
/** Arrivals that close to an index decide its time, s. */
const near = 1.5;

interface Arrival {
  /** Station clock, s. */
  readonly at: number;
  /** Index after the packet's last sample. */
  readonly next: number;
}

/**
 * Which station time belongs to which sample of a stream. A packet can only come late, so the earliest arrivals carry the time; the
 * spacing of samples is taken over the last two minutes, where the jitter of single packets no longer matters.
 */
export class TimeBase {
  readonly #promised: number;
  #arrivals: Arrival[] = [];
  #stretch = Number.NaN;

  constructor(promisedRate: number) {
    this.#promised = promisedRate;
  }

  samples({ first, count, at }: Pick<SamplesPacket, 'first' | 'count' | 'at'>): void {
    const arrival = { at: Number(at) / 1e9, next: first + count };
    const stretchNow = Math.floor(arrival.at / stretch);
    const last = this.#arrivals.at(-1);
    if (last === undefined || stretchNow !== this.#stretch) {
      this.#stretch = stretchNow;
      this.#arrivals.push(arrival);
      if (this.#arrivals.length > remembered) this.#arrivals.shift();
    } else if (last.at + (arrival.next - last.next) / this.rate > arrival.at) {
      // It came less late than the one kept of this stretch.
      this.#arrivals[this.#arrivals.length - 1] = arrival;
    }
  }

  /** Samples a second of station time; the promised rate until there are two seconds of arrivals. */
  get rate(): number {
    const first = this.#arrivals[0];
    const last = this.#arrivals.at(-1);
    if (first === undefined || last === undefined || last.at - first.at < 2) return this.#promised;
    return (last.next - first.next) / (last.at - first.at);
  }

  /** Station time at which a sample was taken at the latest, ms; undefined before any came. */
  timeOf(index: number): number | undefined {
    const { rate } = this;
    const distance = ({ next }: Arrival) => Math.abs(next - index) / rate;
    const closest = Math.min(...this.#arrivals.map(distance));
    let earliest: number | undefined;
    for (const one of this.#arrivals) {
      if (distance(one) > closest + near) continue;
      const at = one.at + (index + 1 - one.next) / rate;
      if (earliest === undefined || at < earliest) earliest = at;
    }
    return earliest === undefined ? undefined : 1000 * earliest;
  }
}
