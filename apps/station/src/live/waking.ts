import type { StationClock } from './clock.ts';

/** Standing still for so long is told, s: shorter stops lose nothing and are marked by the journal. */
const stoodStill = 5;
/** The wall clock ran on by so much more than the monotonic one, s: the machine slept, and its monotonic clock with it. */
const sleptOn = 2;

/** Notices that this machine was asleep, or this process frozen, by its two clocks. Asked several times a second. */
export class WakeWatch {
  readonly #clock: StationClock;
  #last: { readonly monotonic: number; readonly wall: number };

  constructor(clock: StationClock) {
    this.#clock = clock;
    this.#last = this.#now();
  }

  #now() {
    return { monotonic: Number(this.#clock.monotonic()) / 1e9, wall: Date.parse(this.#clock.wall()) / 1000 };
  }

  /** @returns for how many seconds it was asleep, when it was */
  beat(): number | undefined {
    const last = this.#last;
    const now = this.#now();
    this.#last = now;
    const monotonic = now.monotonic - last.monotonic;
    const wall = now.wall - last.wall;
    // A clock that was set back, or by a little, is no sleep.
    if (monotonic >= stoodStill) return Math.max(monotonic, wall - monotonic > sleptOn ? wall : 0);
    return wall - monotonic > sleptOn ? wall : undefined;
  }
}
