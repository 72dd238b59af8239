import { describe, expect, it } from 'vitest';
import { linear } from '../../curve/scale.ts';
import type { Mark } from '../../curve/scene.ts';
import type { Trace } from '../../live/index.ts';
import { penLine } from './pen-line.ts';

/** 200 buckets a second, as the station sends them. */
const traceOf = (lows: readonly (number | null)[], height: number, first = 0): Trace => ({
  ...{ first, bucket: 5, rate: 1000 },
  low: lows,
  high: lows.map((low) => low && low + height),
});
/** A pixel for a newton, and 8 s over so many pixels. */
const drawn = (trace: Trace, width: number) =>
  penLine(trace, { less: 0 }, linear([-8, 0], [0, width]), linear([0, 1000], [1000, 0]), 8);
const paths = (marks: readonly Mark[]) => marks.flatMap((mark) => (mark.kind === 'path' ? [[...mark.points]] : []));
const heights = (points: readonly number[]) => points.filter((_, i) => i % 2 === 1).map((y) => 1000 - y);
const wave = Array.from({ length: 1600 }, (_, i) => 500 + Math.round(300 * Math.sin(i / 9)));

describe('the line under the pen', () => {
  it('keeps the lowest and the highest force of each pixel', () => {
    const [points = []] = paths(drawn(traceOf(wave, 4), 400));
    // 1600 buckets on 400 pixels: four go together.
    expect(points).toHaveLength(400 * 4);
    const shown = heights(points);
    for (let n = 0; n < 400; n++) {
      const own = wave.slice(4 * n, 4 * n + 4);
      const ends = shown.slice(2 * n, 2 * n + 2);
      expect([Math.min(...ends), Math.max(...ends)]).toEqual([Math.min(...own), Math.max(...own) + 4]);
    }
  });

  it('is one point a pixel where the force is steadier than a pixel, and leaves nothing out on a wide screen', () => {
    expect(
      paths(
        drawn(
          traceOf(
            wave.map(() => 700),
            0.5,
          ),
          400,
        ),
      )[0],
    ).toHaveLength(400 * 2);
    expect(paths(drawn(traceOf(wave, 4), 3200))[0]).toHaveLength(1600 * 4);
  });

  it('moves without changing: what goes together does so by its place in the recording', () => {
    const inner = (first: number) => {
      const [points = []] = paths(drawn(traceOf(wave.slice(first), 4, 5 * first), 400));
      // Apart from both ends, whose pixels are not full.
      return heights(points).slice(4, -4);
    };
    for (const first of [1, 2, 3, 4]) expect(inner(0).slice(-600)).toEqual(inner(first).slice(-600));
  });

  it('goes up and down without turning back', () => {
    const rise = Array.from({ length: 1600 }, (_, i) => i / 2);
    for (const [lows, sign] of [
      [rise, 1],
      [rise.toReversed(), -1],
    ] as const) {
      const shown = heights(paths(drawn(traceOf(lows, 0.5), 400))[0] ?? []).slice(2);
      expect(shown.every((height, i) => i === 0 || sign * (height - (shown[i - 1] ?? 0)) >= 0)).toBe(true);
    }
  });

  it('is broken where samples are missing, and ends in the point of the pen', () => {
    const marks = drawn(traceOf([...wave.slice(0, 700), null, ...wave.slice(701)], 4), 400);
    expect(paths(marks)).toHaveLength(2);
    expect(marks.at(-1)).toMatchObject({ kind: 'dot', x: 400 });
  });
});
