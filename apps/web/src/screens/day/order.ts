/** The order with one entry moved by so many places, held at the ends; the same array when nothing moves. */
export function movedBy(ids: readonly string[], id: string, by: number): readonly string[] {
  const from = ids.indexOf(id);
  return from < 0 ? ids : movedTo(ids, id, from + by);
}

/** The order with one entry at the given place (0 is first), held at the ends. */
export function movedTo(ids: readonly string[], id: string, place: number): readonly string[] {
  const from = ids.indexOf(id);
  const to = Math.min(ids.length - 1, Math.max(0, place));
  if (from < 0 || from === to) return ids;
  const rest = ids.filter((one) => one !== id);
  return [...rest.slice(0, to), id, ...rest.slice(to)];
}

/**
 * Gap of a list at which something dropped at height `y` would land: 0 before the first row, n after the last.
 * @param middles heights of the middles of the rows, from the top down
 */
export const gapAt = (middles: readonly number[], y: number): number => middles.filter((middle) => middle < y).length;

/** The order after a drop into a gap of the order as it was. */
export function droppedAt(ids: readonly string[], id: string, gap: number): readonly string[] {
  const from = ids.indexOf(id);
  return movedTo(ids, id, gap > from ? gap - 1 : gap);
}
