/** A small seeded source of numbers in [0, 1): the same seed gives the same recordings everywhere (mulberry32, public domain). */
export interface Random {
  next(): number;
  between(low: number, high: number): number;
  normal(): number;
  chance(probability: number): boolean;
  pick<T>(items: readonly T[]): T;
}

export function random(seed: number): Random {
  // Neighbouring seeds are spread far apart, so that runs of them do not resemble each other.
  let state = Math.imul(seed + 1, 0x9e3779b9) >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    // Box-Muller.
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    chance: (probability) => next() < probability,
    pick: (items) => items[Math.floor(next() * items.length)]!,
  };
}
