import type { CaptureClock } from '../clock/clock.ts';
import { secondsBetween } from '../clock/time.ts';

export interface PacedRun {
  /** Resolves when all is told or after `stop`. */
  readonly done: Promise<void>;
  stop(): void;
}

/** Something to do and when it is due, in seconds of the stream's own time from its beginning. */
export interface Due {
  readonly after: number;
  act(): void;
}

const turn = 10;
/** As fast as possible still lets others work this often, ms. */
const breathe = 20;

/**
 * Does things at their time: at true speed, `speed` times faster, or as fast as possible (0 or infinite). In the last case
 * it is the samples that drive: each act is done before the next is worked out.
 */
export function paced(acts: Iterator<Due> | AsyncIterator<Due>, speed: number, clock: CaptureClock): PacedRun {
  let stopped = false;
  const pause = (ms: number) => new Promise<void>((go) => setTimeout(go, ms));
  const free = speed === 0 || speed === Number.POSITIVE_INFINITY;
  const run = async (): Promise<void> => {
    const began = clock.monotonic();
    const elapsed = () => secondsBetween(began, clock.monotonic());
    let rested = elapsed();
    while (!stopped) {
      const { value, done } = await acts.next();
      if (done || stopped) return;
      if (free) {
        if ((elapsed() - rested) * 1000 > breathe) {
          await pause(0);
          rested = elapsed();
        }
      } else {
        for (
          let wait = value.after / speed - elapsed();
          wait > 0.001 && !stopped;
          wait = value.after / speed - elapsed()
        ) {
          await pause(Math.min(wait * 1000, 10 * turn));
        }
        if (stopped) return;
      }
      value.act();
    }
  };
  return {
    done: run(),
    stop() {
      stopped = true;
    },
  };
}
