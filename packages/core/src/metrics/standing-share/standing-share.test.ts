import { expect, it } from 'vitest';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const left = Array.from({ length: 500 }, (_, i) => (i < 400 ? 450 + (i % 2) : 1500));
const right = Array.from({ length: 500 }, (_, i) => (i < 400 ? 350 - (i % 2) : 1300));
const baseline = { start: 100, end: 300 };

it('is the share of the right side over the baseline', () => {
  const trial = trialOf({ left, right, halfRise: 399, baseline });
  // Means 349.5 of 800 N, from the definition of the arrays.
  expect(metricValue('standing_share_right', trial)).toBeCloseTo(100 * (349.5 / 800), 10);
  expect(measure('standing_share_right', trial).evidence?.interval).toEqual(baseline);
});

it('needs a baseline and two sides', () => {
  expect(reasonOf('standing_share_right', trialOf({ left, right, halfRise: 399, baseline: 'no-quiet-window' }))).toBe(
    'no-quiet-window',
  );
  expect(reasonOf('standing_share_right', trialOf({ left, halfRise: 399, baseline }))).toBe('one-side-only');
});
