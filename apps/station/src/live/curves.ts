import { millisecondsOf } from './clock.ts';
import type { Message } from './hub/client.ts';
import { aboveStanding } from './hub/wall-view.ts';
import type { LiveLab } from './live-lab.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';
import { type Telling, tellingOf, toldRun } from './telling.ts';

/** Under this nobody stands on the plates, N. */
const emptyPlates = 60;

/**
 * Least time between two messages of the curve, ms: with packets of 10 or 20 ms it goes out 50 times a second. Well under 20, so that a
 * packet that comes a little early is not held back for the next.
 */
const envelopeEvery = 14;

/** Sends the curve of each rig at screen rate, and decides how its forces may be told. */
export class Curves {
  readonly #live: LiveLab;
  /** Rigs on which somebody may still stand whose weight is not to be told. */
  readonly #shielded = new Set<string>();
  readonly #sent = new Map<string, number>();

  constructor(live: LiveLab) {
    this.#live = live;
  }

  /** The curve goes out with what is told just now. */
  withThis(rig: string): void {
    this.#sent.delete(rig);
  }

  /** Samples came: the curve goes out at screen rate. */
  tick(runtime: RigRuntime): void {
    const live = this.#live;
    const now = millisecondsOf(live.ports.clock.monotonic());
    if (now - (this.#sent.get(runtime.id) ?? 0) < envelopeEvery) return;
    this.#sent.set(runtime.id, now);
    const run = runtime.stream.envelope?.take();
    if (run === undefined) return;
    const telling = this.tellingOf(runtime, run.total);
    const { forces } = telling;
    live.tell({ type: 'envelope', rig: runtime.id, unit: 'N', forces, ...toldRun(run, telling) } as Message, 'moment');
    const above = live.blank ? undefined : aboveStanding(run, live.turns.get(runtime.id), runtime.phase);
    if (above === undefined) return;
    const { first, bucket, rate } = run;
    live.hub.tellWalls({ type: 'wall-envelope', rig: runtime.id, first, bucket, rate, above } as Message, 'moment');
  }

  /**
   * How the forces of a rig are told now. After a turn whose weight is not told they stay hidden until the plates were seen empty.
   *
   * @param total forces just seen, N
   */
  tellingOf(runtime: RigRuntime, total: readonly (number | null)[] = []): Telling {
    const { id } = runtime;
    const turn = this.#live.starting.get(id) ?? this.#live.turns.get(id);
    if (turn !== undefined) {
      if (turn.weightShown) this.#shielded.delete(id);
      else this.#shielded.add(id);
      return tellingOf(turn, runtime.phase);
    }
    if (total.length > 0 && total.every((force) => force !== null && force < emptyPlates)) this.#shielded.delete(id);
    return { forces: this.#shielded.has(id) ? 'hidden' : 'total' };
  }
}
