import { expect, it } from 'vitest';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const left = [400, 2000, 900, 1600, 1600, 1200, 5000];
const right = [400, 400, 700, 1100, 1300, 1350, 5000];

it('is the first largest force of a side inside (r, e], wherever it lies', () => {
  const trial = trialOf({ left, right, halfRise: 2, end: 5 });
  expect(metricValue('left_peak_force', trial)).toBe(1600);
  expect(metricValue('right_peak_force', trial)).toBe(1350);
  expect(measure('left_peak_force', trial).evidence?.points).toEqual([{ at: 3, force: 1600, of: 'left' }]);
});

it('needs two sides and no gap', () => {
  expect(reasonOf('right_peak_force', trialOf({ right, halfRise: 2 }))).toBe('one-side-only');
  const gaps = { open: [{ start: 5, end: 6 }] };
  expect(reasonOf('left_peak_force', trialOf({ left, right, halfRise: 2, end: 5, gaps }))).toBe('gap-in-interval');
});
