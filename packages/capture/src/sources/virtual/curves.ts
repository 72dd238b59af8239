/** Rises from 0 to 1 between x = 0 and 1 without a corner. */
export function smooth(x: number): number {
  if (x <= 0) return 0;
  return x >= 1 ? 1 : x * x * (3 - 2 * x);
}

/** A smooth wave between -1 and 1, one period a turn; made of products alone, so it is the same on every machine. */
export function wave(turns: number): number {
  const x = turns - Math.floor(turns);
  return 1 - 2 * smooth(x < 0.5 ? 2 * x : 2 - 2 * x);
}
