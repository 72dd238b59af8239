import type { PlateRing } from './script.ts';

/** What a tap with something hard hands over, N.s: the plates answer with some hundred newtons. */
const impulse = 0.15;

/** Ringing under this is over, N; the smallest numbers of all would only cost time. */
const unseen = 1e-6;

/**
 * The free ringing of a plate that was tapped: a mass on a spring and a damper that is given an impulse J shows the force
 * J w / sqrt(1 - d^2) exp(-d w t) sin(w sqrt(1 - d^2) t), w = 2 pi times the natural frequency, d the damping ratio.
 * Sample by sample by the recurrence that this is the impulse response of, so that taps add up.
 */
export class Ring {
  readonly #back: readonly [number, number];
  readonly #strike: number;
  #last = 0;
  #before = 0;
  #taps = 0;

  /** @param rate Hz */
  constructor({ frequency, damping }: PlateRing, rate: number) {
    const w = (2 * Math.PI * frequency) / rate;
    const own = w * Math.sqrt(1 - damping * damping);
    const decay = Math.exp(-damping * w);
    this.#back = [2 * decay * Math.cos(own), -decay * decay];
    // The next sample is the first after the tap.
    this.#strike = ((impulse * rate * w) / Math.sqrt(1 - damping * damping)) * decay * Math.sin(own);
  }

  tap(): void {
    this.#taps++;
  }

  /** Force of the ringing at the next sample, N. */
  next(): number {
    if (this.#taps === 0 && Math.abs(this.#last) + Math.abs(this.#before) < unseen) return 0;
    const now = this.#back[0] * this.#last + this.#back[1] * this.#before + this.#taps * this.#strike;
    this.#taps = 0;
    this.#before = this.#last;
    this.#last = now;
    return now;
  }
}
