import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import type { CaptureClock } from '../../clock/clock.ts';
import type { Timer } from '../timer.ts';

/** A clock and a timer turned by hand: time passes only when it is told to, and either clock can jump by itself. */
export class HandClock implements CaptureClock, Timer {
  #nanoseconds = 1_000_000_000n;
  #wall = Date.parse('2026-03-14T09:00:00.000Z');
  #due: { at: bigint; act: () => void }[] = [];

  monotonic(): MonotonicNanoseconds {
    return this.#nanoseconds as MonotonicNanoseconds;
  }
  wall(): UtcInstant {
    return new Date(this.#wall).toISOString() as UtcInstant;
  }

  after(seconds: number, act: () => void): () => void {
    const entry = { at: this.#nanoseconds + BigInt(Math.round(seconds * 1e9)), act };
    this.#due.push(entry);
    return () => {
      this.#due = this.#due.filter((other) => other !== entry);
    };
  }

  /** Lets time pass; timers go off in order, each at its own time. */
  async pass(seconds: number): Promise<void> {
    const until = this.#nanoseconds + BigInt(Math.round(seconds * 1e9));
    for (;;) {
      const next = this.#due.filter(({ at }) => at <= until).sort((a, b) => (a.at < b.at ? -1 : 1))[0];
      if (next === undefined) break;
      this.#due = this.#due.filter((other) => other !== next);
      this.#advance(next.at - this.#nanoseconds);
      next.act();
      await settle();
    }
    this.#advance(until - this.#nanoseconds);
    await settle();
  }

  /** Both clocks go on while nothing runs, as when a process is frozen. Due timers go off late, once. */
  freeze(seconds: number): void {
    this.#advance(BigInt(Math.round(seconds * 1e9)));
  }

  /** Somebody sets the wall clock. */
  setWall(bySeconds: number): void {
    this.#wall += bySeconds * 1000;
  }

  #advance(nanoseconds: bigint): void {
    if (nanoseconds <= 0n) return;
    this.#nanoseconds += nanoseconds;
    this.#wall += Number(nanoseconds) / 1e6;
  }
}

/** Lets promises that wait for nothing but each other come through. */
export async function settle(): Promise<void> {
  for (let i = 0; i < 50; i++) await Promise.resolve();
}
