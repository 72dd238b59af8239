/** Live connections by paired device, so that taking a device off ends them at once. */
export class Connections {
  readonly #open = new Map<string, Set<() => void>>();

  /**
   * @param end closes the connection and lets nothing more through it
   * @returns to be called when it has closed by itself
   */
  add(device: string, end: () => void): () => void {
    const those = this.#open.get(device) ?? new Set();
    this.#open.set(device, those.add(end));
    return () => {
      those.delete(end);
      if (those.size === 0 && this.#open.get(device) === those) this.#open.delete(device);
    };
  }

  count(device: string): number {
    return this.#open.get(device)?.size ?? 0;
  }

  end(device: string): void {
    const those = this.#open.get(device);
    this.#open.delete(device);
    for (const end of those ?? []) end();
  }
}
