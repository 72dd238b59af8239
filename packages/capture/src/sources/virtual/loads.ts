import type { Spot } from '@sthene/core';
import { smooth } from './curves.ts';
import type { PlateSide } from './script.ts';

/** How long it takes to put a mass on or off, s. */
const handling = 0.6;

interface Load {
  readonly from: number;
  readonly to: number;
  readonly since: number;
  readonly spot: Spot;
  /** Lifted off before it is put down again, somewhere else. */
  readonly lifted: boolean;
}

/** Masses on virtual plates, as newtons that come and go without a jump. */
export class Loads {
  readonly #rate: number;
  readonly #on: Record<PlateSide, Load>;

  constructor(rate: number) {
    this.#rate = rate;
    const none = (): Load => ({ from: 0, to: 0, since: 0, spot: 'centre', lifted: false });
    this.#on = { left: none(), right: none() };
  }

  /** From sample `n` on the plate bears `newtons` in place of what lay there; at another place it is lifted first. */
  put(side: PlateSide, newtons: number, n: number, spot: Spot = 'centre'): void {
    const from = this.at(side, n);
    const lifted = spot !== this.#on[side].spot && from !== 0 && newtons !== 0;
    this.#on[side] = { from, to: newtons, since: n, spot, lifted };
  }

  at(side: PlateSide, n: number): number {
    const { from, to, since, lifted } = this.#on[side];
    const done = (n - since) / (handling * this.#rate);
    if (lifted) return from * (1 - smooth(done)) + to * smooth(done - 1);
    return from + (to - from) * smooth(done);
  }
}
