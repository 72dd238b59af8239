/**
 * Hides counts that could point at a person: every cell below `least`, and, when only one is hidden beside a published total,
 * the next smallest too, because subtraction would give the first one away.
 *
 * @param counts cells of one row or column with a published total
 * @returns the counts, null where hidden
 *
 * Source: methods/jumps-and-plates.md section 6.4 rule 8 (usual disclosure-control limits, from memory there).
 */
export function hideSmallCells(counts: readonly number[], least = 5): (number | null)[] {
  const hidden = new Set(counts.flatMap((count, i) => (count < least ? [i] : [])));
  if (hidden.size === 1) {
    let next: number | undefined;
    counts.forEach((count, i) => {
      if (!hidden.has(i) && (next === undefined || count < (counts[next] as number))) next = i;
    });
    if (next !== undefined) hidden.add(next);
  }
  return counts.map((count, i) => (hidden.has(i) ? null : count));
}
