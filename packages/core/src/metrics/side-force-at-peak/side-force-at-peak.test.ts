import { expect, it } from 'vitest';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

// The sum is largest at sample 4, the left side alone at 3.
const left = [400, 400, 900, 1600, 1500, 1200];
const right = [400, 400, 700, 1100, 1300, 1250];

it('reads both sides at the instant of the summed peak', () => {
  const trial = trialOf({ left, right, halfRise: 2 });
  expect(metricValue('left_force_at_peak', trial)).toBe(1500);
  expect(metricValue('right_force_at_peak', trial)).toBe(1300);
  expect(measure('right_force_at_peak', trial).evidence?.points).toEqual([{ at: 4, force: 1300, of: 'right' }]);
});

it('needs two sides', () => {
  expect(reasonOf('left_force_at_peak', trialOf({ left, halfRise: 2 }))).toBe('one-side-only');
});
