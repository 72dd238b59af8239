import { smooth } from './curves.ts';
import type { PlateSide } from './script.ts';

/** How long it takes to put a mass on or off, s. */
const handling = 0.6;

/** Masses on virtual plates, as newtons that come and go without a jump. */
export class Loads {
  readonly #rate: number;
  readonly #on: Record<PlateSide, { from: number; to: number; since: number }>;

  constructor(rate: number) {
    this.#rate = rate;
    const none = () => ({ from: 0, to: 0, since: 0 });
    this.#on = { left: none(), right: none() };
  }

  /** From sample `n` on the plate bears `newtons` in place of what lay there. */
  put(side: PlateSide, newtons: number, n: number): void {
    this.#on[side] = { from: this.at(side, n), to: newtons, since: n };
  }

  at(side: PlateSide, n: number): number {
    const { from, to, since } = this.#on[side];
    return from + (to - from) * smooth((n - since) / (handling * this.#rate));
  }
}
