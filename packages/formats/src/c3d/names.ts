/**
 * Channel names that tell channels apart: outer blanks removed, an empty name becomes `channel 3` (counted from 1), a
 * repeated one gets ` (2)`, ` (3)`, ... in the order of the file.
 */
export function uniqueNames(labels: readonly string[]): string[] {
  const taken = new Set<string>();
  return labels.map((label, i) => {
    const base = label.trim() === '' ? `channel ${i + 1}` : label.trim();
    let name = base;
    for (let n = 2; taken.has(name); n++) name = `${base} (${n})`;
    taken.add(name);
    return name;
  });
}
