/** Samples of the lowest level of blocks; each higher level joins `fan` blocks. */
export const block = 16;
export const fan = 4;

interface Level {
  readonly size: number;
  readonly min: Float64Array;
  readonly max: Float64Array;
}

/** Smallest and largest value of a stretch; `lo` is Infinity where there is no finite sample. */
export interface Extent {
  lo: number;
  hi: number;
}

/**
 * Precomputed extremes over blocks of samples, so that the extremes of any stretch cost a few look-ups instead of a walk
 * over the samples. Exact: the answer is that of the walk. NaN samples are passed over.
 */
export class Pyramid {
  readonly values: Float64Array;
  private readonly levels: readonly Level[];

  constructor(values: Float64Array) {
    this.values = values;
    const levels: Level[] = [];
    let size = block;
    let below: Level | undefined;
    while (size <= values.length) {
      below = below ? joined(below) : lowest(values);
      levels.push(below);
      size = below.size * fan;
    }
    this.levels = levels;
  }

  /** Extremes over samples [start, end), clipped to the recording. */
  extent(start: number, end: number, into: Extent = { lo: 0, hi: 0 }): Extent {
    into.lo = Number.POSITIVE_INFINITY;
    into.hi = Number.NEGATIVE_INFINITY;
    const last = Math.min(end, this.values.length);
    let at = Math.max(0, start);
    at = this.samples(at, Math.min(last, Math.ceil(at / block) * block), into);
    while (at + block <= last) {
      const level = this.largestAt(at, last);
      const i = at / level.size;
      const lo = level.min[i] as number;
      const hi = level.max[i] as number;
      if (lo < into.lo) into.lo = lo;
      if (hi > into.hi) into.hi = hi;
      at += level.size;
    }
    this.samples(at, last, into);
    return into;
  }

  /** Extremes sample by sample; returns where it stopped. */
  private samples(from: number, to: number, into: Extent): number {
    const { values } = this;
    for (let i = from; i < to; i++) {
      const value = values[i] as number;
      if (value < into.lo) into.lo = value;
      if (value > into.hi) into.hi = value;
    }
    return Math.max(from, to);
  }

  /** The largest block that begins at `at` (a multiple of the smallest block) and ends by `last`. */
  private largestAt(at: number, last: number): Level {
    let found = this.levels[0] as Level;
    for (let i = 1; i < this.levels.length; i++) {
      const level = this.levels[i] as Level;
      if (at % level.size !== 0 || at + level.size > last) break;
      found = level;
    }
    return found;
  }
}

function lowest(values: Float64Array): Level {
  const count = Math.floor(values.length / block);
  const min = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  const max = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  for (let i = 0; i < count * block; i++) {
    const b = (i / block) | 0;
    const value = values[i] as number;
    if (value < (min[b] as number)) min[b] = value;
    if (value > (max[b] as number)) max[b] = value;
  }
  return { size: block, min, max };
}

function joined(below: Level): Level {
  const count = Math.floor(below.min.length / fan);
  const min = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  const max = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  for (let i = 0; i < count * fan; i++) {
    const b = (i / fan) | 0;
    if ((below.min[i] as number) < (min[b] as number)) min[b] = below.min[i] as number;
    if ((below.max[i] as number) > (max[b] as number)) max[b] = below.max[i] as number;
  }
  return { size: below.size * fan, min, max };
}
