import type { OpenLab } from '../../labs/open-lab.ts';

interface Kept {
  readonly sequence: number;
  readonly value: Promise<unknown>;
}

/** Answers that stay right until something is written, for each lab. A few hundred at most: tests by metrics that somebody looks at. */
const kept = new WeakMap<OpenLab['store'], Map<string, Kept>>();
const most = 200;

/**
 * Works something out once for a state of the store. Every write leaves an entry in the audit trail, so the trail's end names the state.
 */
export async function remembered<T>(lab: OpenLab, key: string, workOut: () => Promise<T>): Promise<T> {
  const sequence = (await lab.store.audit.last())?.sequence ?? 0;
  const mine = kept.get(lab.store) ?? new Map<string, Kept>();
  kept.set(lab.store, mine);
  const there = mine.get(key);
  if (there?.sequence === sequence) return there.value as Promise<T>;
  const value = workOut();
  mine.delete(key);
  mine.set(key, { sequence, value });
  value.catch(() => mine.delete(key));
  for (const oldest of mine.keys()) {
    if (mine.size <= most) break;
    mine.delete(oldest);
  }
  return value;
}
