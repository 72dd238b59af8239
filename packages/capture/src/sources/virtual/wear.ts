import type { Spot } from '@sthene/core';
import { Ring } from './ring.ts';
import type { PlateWear } from './script.ts';

/** How a sound plate rings. */
const soundRing = { frequency: 180, damping: 0.03 };

/**
 * What a worn plate makes of a force. Sticking is a play: what is shown is pushed along at a distance of so many newtons and stays
 * where it is while the force turns, so that the way down lies above the way up by twice as much. The gain comes after it, and
 * the ringing of a tap on top: it is the plate's own and passes nothing that sticks.
 */
export class Wear {
  readonly #gain: number;
  readonly #sticks: number;
  readonly #corners: NonNullable<PlateWear['corners']>;
  readonly #ring: Ring;
  #shown = 0;

  /** @param rate Hz */
  constructor({ gain = 1, sticks = 0, corners = {}, rings = soundRing }: PlateWear, rate: number) {
    this.#gain = gain;
    this.#sticks = sticks;
    this.#corners = corners;
    this.#ring = new Ring(rings, rate);
  }

  /** What a load weighs for the plate at a place of it, N. */
  borne(newtons: number, spot: Spot): number {
    return newtons * (this.#corners[spot] ?? 1);
  }

  tap(): void {
    this.#ring.tap();
  }

  /** The next sample, N; a lost one (NaN) moves nothing. */
  shows(force: number): number {
    if (Number.isNaN(force)) return force;
    this.#shown = Math.min(force + this.#sticks, Math.max(force - this.#sticks, this.#shown));
    return this.#gain * this.#shown + this.#ring.next();
  }
}
