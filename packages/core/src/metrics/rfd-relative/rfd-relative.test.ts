import { expect, it } from 'vitest';
import { exponentialTrial } from '../../../test/exact-curves.ts';
import { metricValue, reasonOf } from '../../../test/read.ts';

it('is the early rate as a share of the whole rise', () => {
  // isometric-and-statistics.md 9.5: RFD 0-200 is 8646.647168 N/s; the whole rise is 2000 N to 12 digits.
  expect(Math.abs(metricValue('rfd_0_200_relative', exponentialTrial()) - 8646.647168 / 2000)).toBeLessThan(1e-7);
});

it('needs the peak and the first 200 ms', () => {
  expect(reasonOf('rfd_0_200_relative', exponentialTrial(1000, { end: 2199 }))).toBe('interval-past-end');
  expect(reasonOf('rfd_0_200_relative', exponentialTrial(1000, { gaps: { open: [{ start: 4000, end: 4010 }] } }))).toBe(
    'gap-in-interval',
  );
});
