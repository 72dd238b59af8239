/** Unsaved drafts of this browser. A browser that refuses storage keeps them until the page is left. */
const memory = new Map<string, string>();
const keyOf = (name: string) => `sthene.draft.${name}`;

/** A kept draft as JSON, or undefined; one that cannot be read is no draft. */
export function readDraft(name: string): unknown {
  try {
    const text = localStorage.getItem(keyOf(name)) ?? memory.get(name);
    return text === undefined ? undefined : JSON.parse(text);
  } catch {
    return undefined;
  }
}

export function keepDraft(name: string, draft: unknown): void {
  const text = JSON.stringify(draft);
  try {
    localStorage.setItem(keyOf(name), text);
  } catch {
    memory.set(name, text);
  }
}

export function dropDraft(name: string): void {
  memory.delete(name);
  try {
    localStorage.removeItem(keyOf(name));
  } catch {
    // Nothing was kept there.
  }
}
