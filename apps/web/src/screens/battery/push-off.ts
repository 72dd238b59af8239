import { pushOffRange } from '@sthene/contract';

/** What somebody typed as a push-off distance in cm: nothing, a distance as the station is asked for it, or neither. */
export type PushOffEntry = { readonly ok: true; readonly value: string } | { readonly ok: false };

/** Reads a push-off distance, with a point or a comma; empty is none. */
export function pushOffEntry(text: string): PushOffEntry {
  const typed = text.trim().replace(',', '.');
  if (typed === '') return { ok: true, value: '' };
  const [low, high] = pushOffRange;
  const value = Number(typed);
  return value >= low && value <= high ? { ok: true, value: String(value) } : { ok: false };
}
