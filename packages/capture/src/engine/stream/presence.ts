import { leastStanding } from '@sthene/core';
import type { Block } from './block.ts';

/** A change holds for this long before it is believed, s. */
const sustain = 0.3;

/** Whether somebody stands on the plates: the total over 100 N for 0.3 s, or under it for that time or the one given. */
export class Presence {
  on = false;
  /** First sample of the present state. */
  since = 0;
  #changing: { since: number } | undefined;
  readonly #leaving: number;

  /** @param leaving how long the plates must be empty before that is stepping off, s */
  constructor(leaving = sustain) {
    this.#leaving = leaving;
  }

  /** @returns what changed with this block */
  update(block: Block, rate: number): 'stepped-on' | 'stepped-off' | undefined {
    if (block.total.mean >= leastStanding === this.on) {
      this.#changing = undefined;
      return undefined;
    }
    this.#changing ??= { since: block.start };
    if (block.end - this.#changing.since < (this.on ? this.#leaving : sustain) * rate) return undefined;
    this.on = !this.on;
    this.since = this.#changing.since;
    this.#changing = undefined;
    return this.on ? 'stepped-on' : 'stepped-off';
  }
}
