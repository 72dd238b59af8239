import type { PlateWear } from './script.ts';

/**
 * What a worn plate makes of a force. Sticking is a play: what is shown is pushed along at a distance of so many newtons and stays
 * where it is while the force turns, so that the way down lies above the way up by twice as much. The gain comes after it.
 */
export class Wear {
  readonly #gain: number;
  readonly #sticks: number;
  #shown = 0;

  constructor({ gain = 1, sticks = 0 }: PlateWear = {}) {
    this.#gain = gain;
    this.#sticks = sticks;
  }

  /** N; a lost sample (NaN) moves nothing. */
  shows(force: number): number {
    if (Number.isNaN(force)) return force;
    this.#shown = Math.min(force + this.#sticks, Math.max(force - this.#sticks, this.#shown));
    return this.#gain * this.#shown;
  }
}
