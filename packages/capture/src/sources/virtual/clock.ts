import { RateMeter } from '../../clock/rate.ts';
import type { ClockPacket, StatusPacket } from '../../packets/packet.ts';
import type { LineFault } from './script.ts';

/** Difference from the promised rate that is a warning, as a share, and what a measured rate may be off at best. */
const wrongFrom = 0.005;
const tolerance = 0.0001;

/** The clock of virtual plates: when each sample is due, also where the rate is another than promised, and the rate as it is measured. */
export class VirtualClock {
  readonly #promised: number;
  readonly #faults: readonly LineFault[];
  readonly #meter: RateMeter;
  #wrong = false;

  /** @param faults may grow while the plates run */
  constructor(promised: number, faults: readonly LineFault[]) {
    this.#promised = promised;
    this.#faults = faults;
    this.#meter = new RateMeter(promised);
  }

  /** Spans of one rate each, in order: from a sample on, which is due at so many seconds. */
  #spans(): { readonly from: number; readonly at: number; readonly hertz: number }[] {
    const spans = [{ from: 0, at: 0, hertz: this.#promised }];
    const changes = this.#faults.filter((fault) => fault.kind === 'rate').sort((a, b) => a.from - b.from);
    for (const { from, hertz } of changes) {
      const last = spans.at(-1) as (typeof spans)[number];
      spans.push({ from, at: last.at + (from - last.from) / last.hertz, hertz });
    }
    return spans;
  }

  /** Seconds from the start at which a sample is due. */
  secondsAt(sample: number): number {
    const span = this.#spans().findLast(({ from }) => from <= sample);
    return span === undefined ? 0 : span.at + (sample - span.from) / span.hertz;
  }

  /** Samples that are due after so many seconds. */
  samplesAt(seconds: number): number {
    const span = this.#spans().findLast(({ at }) => at <= seconds);
    return span === undefined ? 0 : span.from + (seconds - span.at) * span.hertz;
  }

  /** Takes note of a count that was reached when it was due. */
  heard(count: number): void {
    this.#meter.add(count, this.secondsAt(count));
  }

  /** The rate so far, for a clock packet. */
  rate(): Pick<ClockPacket, 'measuredRate' | 'rateUncertainty'> {
    const line = this.#meter.line();
    return line === undefined ? {} : { measuredRate: line.rate, rateUncertainty: line.uncertainty };
  }

  /** A word about the rate when it has become wrong, or right again. */
  judged(): Pick<StatusPacket, 'state' | 'words'> | undefined {
    const line = this.#meter.line();
    if (line === undefined || line.span < 3) return undefined;
    const off = Math.abs(line.rate / this.#promised - 1);
    const wrong = off > wrongFrom + (this.#wrong ? -tolerance : tolerance);
    if (wrong === this.#wrong) return undefined;
    this.#wrong = wrong;
    const told = `${line.rate.toFixed(2)} samples a second come, ${this.#promised} were promised`;
    return wrong
      ? { state: 'wrong-rate', words: `${told}.` }
      : { state: 'connected', words: `The rate is right again: ${told}.` };
  }
}
