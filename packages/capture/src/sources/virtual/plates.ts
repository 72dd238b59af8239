import { type SeededRandom, type Spot, seededRandom } from '@sthene/core';
import type { StreamChannel } from '../../packets/packet.ts';
import { smooth } from './curves.ts';
import type { LineFault, PlateSide, VirtualScript } from './script.ts';
import { Wear } from './wear.ts';

const sides: readonly PlateSide[] = ['left', 'right'];
/** Steps of the converter in a newton. */
const steps = 10;

/** What two plates make of the forces on them: wear, ringing, noise, a wandering zero, a limit, steps of 0.1 N. */
export class Plates {
  readonly channels: readonly StreamChannel[];
  readonly #noise: readonly SeededRandom[];
  readonly #sd: number;
  readonly #range: number;
  readonly #faults: readonly LineFault[];
  readonly #wear: Readonly<Record<PlateSide, Wear>>;

  constructor(
    sd: number,
    range: number,
    seed: number,
    rate: number,
    faults: readonly LineFault[],
    wear: NonNullable<VirtualScript['plates']> = {},
  ) {
    this.#wear = { left: new Wear(wear.left ?? {}, rate), right: new Wear(wear.right ?? {}, rate) };
    this.#sd = sd;
    this.#range = range;
    this.#faults = faults;
    this.#noise = sides.map((_, at) => seededRandom(seed, 22 + at));
    this.channels = sides.map((side) => ({
      name: side,
      plate: side,
      side,
      axis: 'z',
      unit: 'N',
      scale: 1,
      offset: 0,
      rawRange: [-range, range],
    }));
  }

  /** What masses at a place weigh for a plate, N. */
  borne(side: PlateSide, newtons: number, spot: Spot): number {
    return this.#wear[side].borne(newtons, spot);
  }

  /** Taps a plate once with something hard; it rings from the next sample on. */
  tap(side: PlateSide): void {
    this.#wear[side].tap();
  }

  /** Raw value of a plate; NaN (a lost sample) stays NaN. */
  raw(side: PlateSide, force: number, n: number): number {
    const noise = this.#sd * (this.#noise[side === 'left' ? 0 : 1] as SeededRandom).gaussian();
    if (Number.isNaN(force)) return force;
    let value = this.#wear[side].shows(force) + noise;
    for (const fault of this.#faults) {
      if ((fault.kind !== 'drift' && fault.kind !== 'saturation') || fault.side !== side || n < fault.from) continue;
      if (fault.kind === 'drift') value += fault.newtons * smooth((n - fault.from) / Math.max(1, fault.count));
      else if (n < fault.from + fault.count) value = this.#range;
    }
    const stepped = Math.round(value * steps) / steps;
    return Math.min(this.#range, Math.max(-this.#range, stepped));
  }
}
