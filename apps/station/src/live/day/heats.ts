/**
 * Heats by the running order: the first `size` people are heat 1, the next ones heat 2, and so on. Somebody with two tests is in
 * one heat, that of their first place.
 *
 * @param people the person of each entry, in the running order
 * @param size people of a heat; undefined: all are one heat
 * @returns heat of each person, from 1
 */
export function heatsOf(people: readonly string[], size: number | undefined): ReadonlyMap<string, number> {
  const heats = new Map<string, number>();
  for (const person of people)
    if (!heats.has(person)) heats.set(person, size === undefined ? 1 : Math.floor(heats.size / size) + 1);
  return heats;
}
