import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { centredMean, largestMean, slidingMean, slidingStatistics, smallestMean, trailingMean } from './sliding.ts';
import { meanOf, sdOf } from './statistics.ts';

// The reference here is the definition itself: a two-pass mean and SD of each window by itself.
const data = fc.array(fc.double({ min: -5000, max: 5000, noNaN: true }), { minLength: 2, maxLength: 60 });

describe('sliding windows', () => {
  it('agree with each window computed by itself', () => {
    fc.assert(
      fc.property(data, fc.integer({ min: 2, max: 12 }), fc.nat(5), fc.nat(5), (values, width, cutLeft, cutRight) => {
        const from = Math.min(cutLeft, values.length);
        const to = Math.max(from, values.length - cutRight);
        const { mean, sd } = slidingStatistics(values, width, from, to);
        const means = slidingMean(values, width, from, to);
        expect(mean.length).toBe(Math.max(0, to - from - width + 1));
        expect(means.length).toBe(mean.length);
        for (let i = 0; i < mean.length; i++) {
          const start = from + i;
          const scale = Math.max(1, ...values.slice(start, start + width).map(Math.abs));
          expect(Math.abs((mean[i] ?? 0) - meanOf(values, start, start + width))).toBeLessThan(1e-12 * scale);
          expect(Math.abs((means[i] ?? 0) - meanOf(values, start, start + width))).toBeLessThan(1e-12 * scale);
          expect(Math.abs((sd[i] ?? 0) - sdOf(values, start, start + width))).toBeLessThan(1e-7 * scale);
        }
      }),
    );
  });

  it('keep ten digits of a small SD on a large level after a large spike', () => {
    const values = Float64Array.from(
      { length: 30_000 },
      (_, i) => 1e4 + 0.01 * Math.sin(i * 12.9898) * Math.cos(i * 0.37),
    );
    values[5000] = 1e7;
    const { mean, sd } = slidingStatistics(values, 1000);
    for (let k = 0; k < sd.length; k += 97) {
      expect(Math.abs((mean[k] ?? 0) / meanOf(values, k, k + 1000) - 1)).toBeLessThan(1e-14);
      expect(Math.abs((sd[k] ?? 0) / sdOf(values, k, k + 1000) - 1)).toBeLessThan(1e-10);
    }
  });

  it('give constant data exactly and SD zero, also right after a ramp', () => {
    const values = Float64Array.from({ length: 500 }, (_, i) => (i < 200 ? 0.1 * i * i : 733.3));
    const { mean, sd } = slidingStatistics(values, 40);
    for (let k = 200; k < mean.length; k++) {
      expect(mean[k]).toBe(733.3);
      expect(sd[k]).toBe(0);
    }
  });

  it('lay trailing and centred means on their sample', () => {
    const values = [0, 1, 2, 3, 4, 5, 6, 7];
    expect([...trailingMean(values, 3, 4, 7)]).toEqual([3, 4, 5]);
    expect([...centredMean(values, 3, 4, 7)]).toEqual([4, 5, 6]);
    expect([...centredMean(values, 4, 4, 6)]).toEqual([3.5, 4.5]);
    expect(() => trailingMean(values, 3, 1, 4)).toThrow(RangeError);
  });
});

describe('extreme windows', () => {
  it('are the first of the largest and smallest sliding means, to the last digit', () => {
    const coarse = fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 0, maxLength: 60 });
    fc.assert(
      fc.property(fc.oneof(data, coarse), fc.integer({ min: 1, max: 12 }), fc.nat(5), (values, width, cut) => {
        const from = Math.min(cut, values.length);
        const means = [...slidingMean(values, width, from)];
        for (const [found, extreme] of [
          [largestMean(values, width, from), Math.max(...means)],
          [smallestMean(values, width, from), Math.min(...means)],
        ] as const) {
          const first = means.indexOf(extreme);
          expect(found).toEqual(first < 0 ? undefined : { start: from + first, mean: extreme });
        }
      }),
    );
  });
});
