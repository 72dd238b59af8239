import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import type { CaptureClock } from '../clock/clock.ts';

/** A clock frame is due after this many seconds. */
export const clockFrameSeconds = 5;
/** A station that did nothing for this long stood still: its process was frozen or its machine asleep. */
export const stoodStillSeconds = 0.2;
/** A wall clock that moved this far against the monotonic one was set, not slewed: a tenth of a second. */
const stepMilliseconds = 100;
/** Slewing moves a clock by at most 0.05 % (500 ppm, the limit of the usual time daemon). */
const slew = 0.0005;

export const secondsOf = (nanoseconds: bigint): number => Number(nanoseconds) / 1e9;

/** What a look at the clocks found. */
export interface ClockLook {
  readonly at: MonotonicNanoseconds;
  readonly wallClock: UtcInstant;
  /** Seconds the wall clock was moved by since the last look, when it was moved. */
  readonly wallStep?: number;
  /** True when a clock frame is due, also because of a step. */
  readonly due: boolean;
}

/** Watches the two clocks against each other and for times in which nothing ran. */
export class ClockWatch {
  readonly #clock: CaptureClock;
  #lastFrame: bigint | undefined;
  #lastLook: { at: bigint; wall: number } | undefined;
  #lastBeat: bigint;

  constructor(clock: CaptureClock) {
    this.#clock = clock;
    this.#lastBeat = clock.monotonic();
  }

  /** Call at every chance to run; gives the seconds stood still when they are too many. */
  beat(now: MonotonicNanoseconds): number | undefined {
    const seconds = secondsOf(now - this.#lastBeat);
    this.#lastBeat = now;
    return seconds >= stoodStillSeconds ? seconds : undefined;
  }

  look(): ClockLook {
    // Being interrupted between reading the two clocks would look like a step, so a slow reading is done again.
    let at = this.#clock.monotonic();
    let wallClock = this.#clock.wall();
    for (let i = 0; i < 3 && secondsOf(this.#clock.monotonic() - at) > 0.02; i++) {
      at = this.#clock.monotonic();
      wallClock = this.#clock.wall();
    }
    const wall = Date.parse(wallClock);
    const last = this.#lastLook;
    this.#lastLook = { at, wall };
    const passed = last === undefined ? 0 : secondsOf(at - last.at) * 1000;
    const moved = last === undefined ? 0 : wall - last.wall - passed;
    const stepped = Math.abs(moved) > stepMilliseconds + slew * passed;
    const due = stepped || this.#lastFrame === undefined || secondsOf(at - this.#lastFrame) >= clockFrameSeconds;
    if (due) this.#lastFrame = at;
    return { at, wallClock, due, ...(stepped ? { wallStep: moved / 1000 } : {}) };
  }
}
