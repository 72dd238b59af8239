/** An explicit, ordered list of definitions of one kind, looked up by id. */
export interface Registry<T extends { readonly id: string }> {
  /** In the order they are listed. */
  readonly all: readonly T[];
  get(id: string): T | undefined;
  has(id: string): boolean;
}

/**
 * Makes a registry from one explicit list.
 *
 * @param kind what the entries are, in words, for the error
 * @param entries definitions in the order they are shown
 * @throws Error when an id stands twice: a programming error that must stop the start, not be found later
 */
export function registry<T extends { readonly id: string }>(kind: string, entries: readonly T[]): Registry<T> {
  const byId = new Map<string, T>();
  for (const entry of entries) {
    if (byId.has(entry.id)) throw new Error(`The ${kind} "${entry.id}" is listed twice.`);
    byId.set(entry.id, entry);
  }
  const all = Object.freeze([...entries]);
  return { all, get: (id) => byId.get(id), has: (id) => byId.has(id) };
}
