import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/** Holds 2000 N with one stray sample; the baseline has SD `sd`. */
const trial = (stray: number, sd: number, width = 1) => {
  const half = sd * Math.sqrt(999 / 1000);
  const total = Array.from({ length: 2000 }, (_, i) =>
    i < 1000 ? 800 + (i % 2 ? half : -half) : i >= 1500 && i < 1500 + width ? stray : 2000,
  );
  return trialOf({ total, halfRise: 999, baseline: { start: 0, end: 1000 } });
};

it('compares the peak with the best 20 ms', () => {
  // One sample of 2000 + d lifts a mean of 20 by d / 20: the difference is 0.95 d, against 3 % of 2000 + d.
  expect(judge('spike', trial(2060, 1)).value).toBeCloseTo(57, 9);
  expect(judge('spike', trial(2060, 1))).toMatchObject({ status: 'pass', unit: 'N', limit: 0.03 * 2060 });
  expect(judge('spike', trial(2070, 1)).status).toBe('warn');
  expect(judge('spike', trial(2200, 1, 20))).toMatchObject({ status: 'pass' });
});

it('allows five times a large noise', () => {
  expect(judge('spike', trial(2070, 14))).toMatchObject({ status: 'pass' });
  expect(judge('spike', trial(2070, 14)).limit).toBeCloseTo(70, 9);
  expect(judge('spike', trial(2080, 14)).status).toBe('warn');
});

it('does not judge without a baseline', () => {
  const total = [800, 800, ...Array.from({ length: 30 }, () => 2000)];
  expect(judge('spike', trialOf({ total, halfRise: 1, baseline: 'no-quiet-window' })).notJudged).toBe('no-baseline');
  expect(judge('spike', trialOf({ total: total.slice(0, 20), halfRise: 1 })).notJudged).toBe('too-short');
});
