import type { Curve, LiveVerdict } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { linear } from '../../curve/scale.ts';
import type { Mark, Scene } from '../../curve/scene.ts';
import { keptScene, storedScene } from './stored-scene.ts';

const rate = 1000;
/** A rise, a plateau with one sample above it, and a fall. */
const force = (n: number) => (n < 2000 ? 700 : n > 7000 ? 650 : n === 4321 ? 2600 : 2400);
const forces = Float64Array.from({ length: 9000 }, (_, n) => force(n));
const curveOf = (values: Float64Array): Curve => ({
  ...({ series: [{ of: 'total' }], sampleRate: rate, samples: values.length } as unknown as Curve),
  values: [values],
});
const common = {
  width: 500,
  height: 400,
  evidence: { onset: 2000, end: 7000, from: 0, span: { start: 0, end: 9000 } } as unknown as LiveVerdict['evidence'],
  band: undefined,
  best: undefined,
  view: { mode: 'total', less: 0 } as const,
  axis: [0, 3000] as const,
  measure: () => 10,
};
/** The curve alone, not the paper or the marks of the evidence. */
const lines = ({ marks }: Scene) =>
  marks
    .flatMap((mark): readonly Mark[] => (mark.kind === 'clip' ? mark.marks : []))
    .flatMap((mark) => (mark.kind === 'path' ? [mark.points] : []));
const y = linear([0, 3000], [common.height - 26, 30]);
const heights = (points: readonly number[]) => points.filter((_, i) => i % 2 === 1).map((at) => y.from(at));

describe('the curve of a judged effort on the Floor', () => {
  const bucketed = (values: ArrayLike<number>) => {
    const buckets = Array.from({ length: values.length / 5 }, (_, b) =>
      Array.from({ length: 5 }, (_, i) => values[5 * b + i] as number),
    );
    const told = (of: (...some: number[]) => number) =>
      buckets.map((some) => (some.some(Number.isNaN) ? null : of(...some)));
    return { first: 0, bucket: 5, rate, low: told(Math.min), high: told(Math.max) };
  };

  it('keeps a peak of one sample, and begins and ends where it is shown', () => {
    for (const scene of [
      storedScene({ ...common, curve: curveOf(forces) }),
      keptScene({ ...common, trace: bucketed(forces) }),
    ]) {
      const drawn = lines(scene);
      expect(drawn).toHaveLength(1);
      const [points = []] = drawn;
      expect(Math.max(...heights(points))).toBeCloseTo(2600, 6);
      expect(Math.min(...heights(points))).toBeCloseTo(650, 6);
      // 62 px is the left end of the paper, 12 px its right margin.
      expect(points[0]).toBeGreaterThan(58);
      expect(points[0]).toBeLessThan(66);
      expect(points.at(-2)).toBeGreaterThan(common.width - 18);
    }
  });

  it('is broken where samples are missing', () => {
    const gappy = forces.map((value, n) => (n >= 3000 && n < 3400 ? Number.NaN : value));
    for (const scene of [
      storedScene({ ...common, curve: curveOf(gappy) }),
      keptScene({ ...common, trace: bucketed(gappy) }),
    ]) {
      const [before = [], after = [], ...more] = lines(scene);
      expect(more).toEqual([]);
      const x = linear([0.5, 7.8], [62, common.width - 12]);
      expect(x.from(before.at(-2) ?? 0)).toBeLessThan(3.001);
      expect(x.from(after[0] ?? 0)).toBeGreaterThan(3.399);
    }
  });
});
