import type { SampleSpan } from '../sample.ts';
import type { PressurePath } from './pressure.ts';

/** Where a point was over a while, mm. */
export interface PathFigures {
  /** Samples that have a place. */
  readonly samples: number;
  readonly mean: readonly [x: number, y: number];
  /** Largest less smallest. */
  readonly range: readonly [x: number, y: number];
}

/** Mean and range of a path over a span; undefined where no sample of it has a place. */
export function pathFigures({ x, y }: PressurePath, { start, end }: SampleSpan): PathFigures | undefined {
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const sum = [0, 0];
  let samples = 0;
  for (let n = Math.max(0, start); n < Math.min(end, x.length); n++) {
    const at = [x[n] as number, y[n] as number];
    if (!at.every(Number.isFinite)) continue;
    samples++;
    for (const axis of [0, 1] as const) {
      const value = at[axis] as number;
      sum[axis] = (sum[axis] as number) + value;
      low[axis] = Math.min(low[axis] as number, value);
      high[axis] = Math.max(high[axis] as number, value);
    }
  }
  if (samples === 0) return undefined;
  const both = (of: (axis: 0 | 1) => number): readonly [number, number] => [of(0), of(1)];
  return {
    samples,
    mean: both((axis) => (sum[axis] as number) / samples),
    range: both((axis) => (high[axis] as number) - (low[axis] as number)),
  };
}
