/** Random numbers from a seed (mulberry32), for tests that must be replayed. */
export interface Draw {
  /** In [0, 1). */
  unit(): number;
  /** Whole, in [0, below). */
  below(below: number): number;
  /** True with the chance given. */
  chance(share: number): boolean;
}

export function drawFrom(seed: number): Draw {
  let state = (seed ^ 0x9e3779b9) >>> 0;
  const unit = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return { unit, below: (below) => Math.floor(unit() * below), chance: (share) => unit() < share };
}
