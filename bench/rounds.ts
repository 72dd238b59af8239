/** A side of a comparison: measures itself once and says what it found. */
export type Side<T> = () => Promise<T>;

/**
 * Runs the sides in turn, the order turned round each time, so that a slow spell of the machine meets all of them.
 *
 * @returns what each side found, in the order of the rounds
 */
export async function alternate<T extends Record<string, Side<unknown>>>(
  rounds: number,
  sides: T,
): Promise<{ [K in keyof T]: Awaited<ReturnType<T[K]>>[] }> {
  const names = Object.keys(sides) as (keyof T)[];
  const found = Object.fromEntries(names.map((name) => [name, [] as unknown[]])) as {
    [K in keyof T]: Awaited<ReturnType<T[K]>>[];
  };
  for (let round = 0; round < rounds; round++) {
    for (const name of round % 2 === 0 ? names : [...names].reverse())
      found[name].push((await (sides[name] as Side<unknown>)()) as never);
  }
  return found;
}

/** The middle value; of an even number the mean of the middle two. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** Quantile with linear interpolation between the ordered values. */
export function quantile(values: readonly number[], share: number): number {
  if (values.length === 0) throw new RangeError('No values have no quantile.');
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const low = sorted[Math.floor(at)] as number;
  const high = sorted[Math.ceil(at)] as number;
  return low + (high - low) * (at - Math.floor(at));
}
