import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { envelope, unbroken } from './envelope.ts';
import { Pyramid } from './pyramid.ts';

const walk = (values: Float64Array, start: number, end: number) => {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (let i = start; i < end; i++) {
    lo = Math.min(lo, values[i] as number);
    hi = Math.max(hi, values[i] as number);
  }
  return { lo, hi };
};
const valuesOf = (points: number[]) => points.filter((_, i) => i % 2 === 1);
const placesOf = (points: number[]) => points.filter((_, i) => i % 2 === 0);

describe('Pyramid', () => {
  it('answers what a walk over the samples answers', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ noNaN: true, min: -1e4, max: 1e4 }), { minLength: 1, maxLength: 3000 }),
        fc.nat(3000),
        fc.nat(3000),
        (list, a, b) => {
          const values = Float64Array.from(list);
          const [start, end] = [Math.min(a, b, values.length), Math.min(Math.max(a, b), values.length)];
          expect(new Pyramid(values).extent(start, end)).toEqual(walk(values, start, end));
        },
      ),
      { numRuns: 150 },
    );
  });
  it('passes over missing values', () => {
    const values = new Float64Array(200).fill(Number.NaN);
    expect(new Pyramid(values).extent(0, 200).hi).toBe(Number.NEGATIVE_INFINITY);
    values[77] = 3;
    expect(new Pyramid(values).extent(0, 200)).toEqual({ lo: 3, hi: 3 });
  });
});

describe('envelope', () => {
  it('keeps one stray sample in 120 000 at any zoom and any pan', () => {
    const values = new Float64Array(120_000).fill(750);
    values[61_803] = 2868;
    values[61_804] = -40;
    const pyramid = new Pyramid(values);
    for (const perColumn of [1, 2.5, 17, 141.3, 1000, 120_000])
      for (const shift of [0, 1, 333, 61_803]) {
        const drawn = valuesOf(envelope(pyramid, { start: shift, end: 120_000 }, perColumn));
        expect(Math.max(...drawn)).toBe(2868);
        expect(Math.min(...drawn)).toBe(-40);
      }
  });
  it('keeps the extremes of every column, in order of time, from random curves', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ noNaN: true, min: -5000, max: 5000 }), { minLength: 3, maxLength: 2000 }),
        fc.double({ noNaN: true, min: 2.01, max: 90 }),
        (list, perColumn) => {
          const values = Float64Array.from(list);
          const points = envelope(new Pyramid(values), { start: 0, end: values.length }, perColumn);
          const drawn = valuesOf(points);
          const { lo, hi } = walk(values, 0, values.length);
          expect([Math.min(...drawn), Math.max(...drawn)]).toEqual([lo, hi]);
          expect(drawn[0]).toBe(values[0]);
          expect(drawn.at(-1)).toBe(values.at(-1));
          const places = placesOf(points);
          for (let i = 1; i < places.length; i++) expect(places[i]).toBeGreaterThanOrEqual(places[i - 1] as number);
          // Bounded work: four points a column at most.
          expect(places.length).toBeLessThanOrEqual(4 * (Math.ceil(values.length / (0.75 * perColumn)) + 1));
        },
      ),
      { numRuns: 100 },
    );
  });
  it('draws the same columns when the window starts elsewhere', () => {
    const values = Float64Array.from({ length: 5000 }, (_, i) => Math.sin(i / 7) * 100);
    const pyramid = new Pyramid(values);
    const a = envelope(pyramid, { start: 1000, end: 3000 }, 20);
    const b = envelope(pyramid, { start: 1400, end: 3000 }, 20);
    expect(a.slice(a.length - b.length)).toEqual(b);
  });
});

describe('unbroken', () => {
  it('leaves out every gap', () => {
    const gaps = [
      { start: 5, end: 8 },
      { start: 20, end: 21 },
    ];
    expect(unbroken(0, 30, gaps)).toEqual([
      { start: 0, end: 5 },
      { start: 8, end: 20 },
      { start: 21, end: 30 },
    ]);
    expect(unbroken(6, 8, gaps)).toEqual([]);
    expect(unbroken(6, 10, gaps)).toEqual([{ start: 8, end: 10 }]);
  });
});
