import { createHash } from 'node:crypto';
import type { SessionValue } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';

interface Kept<T = unknown> {
  readonly state: string | number;
  readonly value: Promise<T>;
}

/** Answers that stay right while a state stays the same, for each lab. Few: each holds every session of a test, megabytes in a large lab. */
const kept = new WeakMap<OpenLab['store'], Map<string, Kept>>();
const most = 24;

/**
 * Works something out once for a state.
 *
 * @param workOut is told what was kept for another state, which may need little to become right
 */
export async function remembered<T>(
  lab: OpenLab,
  key: string,
  state: string | number,
  workOut: (before: Kept<T> | undefined) => T | Promise<T>,
): Promise<T> {
  const mine = kept.get(lab.store) ?? new Map<string, Kept>();
  kept.set(lab.store, mine);
  const there = mine.get(key);
  if (there?.state === state) {
    // The one asked for longest ago goes first.
    mine.delete(key);
    mine.set(key, there);
    return there.value as Promise<T>;
  }
  const value = Promise.resolve().then(() => workOut(there as Kept<T> | undefined));
  mine.delete(key);
  mine.set(key, { state, value });
  value.catch(() => mine.delete(key));
  for (const oldest of mine.keys()) {
    if (mine.size <= most) break;
    mine.delete(oldest);
  }
  return value;
}

/** The state of the whole store: every write leaves an entry in the audit trail, so the trail's end names it. */
export const stateOfStore = async (lab: OpenLab): Promise<number> => (await lab.store.audit.last())?.sequence ?? 0;

/** The state of some values: writes that do not touch them leave it alone. */
export function stateOfValues(values: readonly SessionValue[]): string {
  const hash = createHash('sha256');
  hash.update(Float64Array.from(values.flatMap(({ day, value }) => [day, value])));
  hash.update(values.map(({ person, group = '' }) => `${person} ${group}`).join());
  return hash.digest('base64');
}
