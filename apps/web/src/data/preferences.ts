/**
 * Preferences of this browser: theme, keys, who signs. Nothing measured and nothing decided is ever kept here; clearing the
 * browser loses convenience, never data. A browser that refuses storage still works.
 */
export type PreferenceName =
  | 'theme'
  | 'signed-as'
  | 'letter-keys'
  | 'png-width'
  | 'device'
  | 'cue-sound'
  | 'film-here'
  | 'cue-voice'
  | 'cue-flash'
  | 'floor-keys'
  | 'wall-sound'
  | 'show-weight';

const listeners = new Set<() => void>();
const memory = new Map<string, string>();
const keyOf = (name: PreferenceName) => `sthene.${name}`;

/** The stored text, or undefined. */
export function readPreference(name: PreferenceName): string | undefined {
  try {
    return localStorage.getItem(keyOf(name)) ?? undefined;
  } catch {
    return memory.get(name);
  }
}

/** Stores a preference and tells every listener. */
export function writePreference(name: PreferenceName, value: string): void {
  try {
    localStorage.setItem(keyOf(name), value);
  } catch {
    memory.set(name, value);
  }
  for (const listener of listeners) listener();
}

/** Calls back when a preference changes in this tab; returns the way to stop. */
export function onPreference(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
