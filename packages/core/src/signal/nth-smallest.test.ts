import { expect, it } from 'vitest';
import { seededRandom } from '../simulation/index.ts';
import { indexOfSmallest, nthSmallest } from './index.ts';

// Truth: the sort of the language (ECMA-262, %TypedArray%.prototype.sort).
it('the value at a place is that of the sorted values', () => {
  const random = seededRandom(1, 0);
  for (let length = 1; length < 60; length++) {
    // Coarse values, so that many are equal.
    const values = Float64Array.from({ length }, () => Math.floor(random.between(1, 19)));
    const sorted = values.slice().sort();
    for (let n = 0; n < length; n++) expect(nthSmallest(values.slice(), n), `${n} of ${length}`).toBe(sorted[n]);
  }
});

it('there is none outside', () => {
  expect(nthSmallest(new Float64Array(0), 0)).toBeUndefined();
  expect(nthSmallest(Float64Array.of(1, 2), 2)).toBeUndefined();
});

it('the first of equal smallest values is the smallest', () => {
  expect(indexOfSmallest([5, 2, 2, 3], 0, 4)).toBe(1);
  expect(indexOfSmallest([5, 2, 2, 3], 2, 4)).toBe(2);
  expect(indexOfSmallest([5, 2], 1, 1)).toBe(-1);
});
