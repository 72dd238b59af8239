import { isEffort } from '@sthene/capture';
import type { LiveLab } from './live-lab.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';

/** One cue at a time in the room: a rig that counts or pulls keeps the others from counting. */
export class Room {
  readonly #live: LiveLab;
  /** Rigs that are to be armed as soon as the room is free. */
  readonly waiting = new Set<string>();

  constructor(live: LiveLab) {
    this.#live = live;
  }

  /** Another rig is between the start of its count and the end of its pull. */
  busyFor(rig: string): boolean {
    return [...this.#live.rigs.values()].some(
      ({ record, runtime }) => record.id !== rig && (runtime.phase === 'cue' || isEffort(runtime.phase)),
    );
  }

  /** A phase began at a rig: others are disarmed when it counts, and armed again when it is through. */
  phaseOf(runtime: RigRuntime): void {
    if (runtime.phase === 'cue') {
      for (const other of this.#live.rigs.values()) {
        if (other.record.id === runtime.id || !other.runtime.armed) continue;
        this.waiting.add(other.record.id);
        this.#live.order(other.runtime, { order: 'disarm' });
      }
    }
    // The engine is still telling; it takes no order before it is done.
    queueMicrotask(() => this.armWaiting());
  }

  armWaiting(): void {
    for (const rig of this.waiting) {
      const runtime = this.#live.rigs.get(rig)?.runtime;
      if (runtime === undefined || runtime.files || runtime.armed || this.busyFor(rig)) continue;
      if (!armable.has(runtime.phase)) continue;
      const refused = this.#live.order(runtime, { order: 'arm' });
      if (refused === undefined && !this.#live.handsFree) this.waiting.delete(rig);
    }
  }
}

const armable: ReadonlySet<string> = new Set(['stand-still', 'set-up', 'ready', 'rest']);
