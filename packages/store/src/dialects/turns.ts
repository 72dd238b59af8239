/** Turns at the one thing there is: whoever waits longest is next, and nobody else wakes up. */
export class Turns {
  #taken = false;
  readonly #waiting = new Set<() => void>();

  /** Resolves when it is the caller's turn, which lasts until `done`. */
  next(): Promise<void> {
    if (this.#taken) return new Promise((resolve) => void this.#waiting.add(resolve));
    this.#taken = true;
    return Promise.resolve();
  }

  done(): void {
    for (const resolve of this.#waiting) {
      this.#waiting.delete(resolve);
      resolve();
      return;
    }
    this.#taken = false;
  }
}
