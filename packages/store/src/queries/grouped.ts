/** Items by a key of theirs, each group in the order in which they came. */
export function grouped<Item>(items: readonly Item[], keyOf: (item: Item) => string): Map<string, Item[]> {
  const found = new Map<string, Item[]>();
  for (const item of items) {
    const group = found.get(keyOf(item));
    if (group === undefined) found.set(keyOf(item), [item]);
    else group.push(item);
  }
  return found;
}
