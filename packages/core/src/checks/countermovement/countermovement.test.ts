import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/** Stands at 800 N with a dip of 50 samples that starts at `at`; r is sample 2000. */
const trial = (depth: number, at: number, start = 0) =>
  trialOf({
    total: Array.from({ length: 2500 - start }, (_, k) => {
      const i = k + start;
      return i > 2000 ? 2800 : i >= at && i < at + 50 ? 800 - depth : 800;
    }),
    halfRise: 2000 - start,
    baseline: { start: 0, end: Math.min(1000, 2000 - start) },
    weight: 800,
  });

it('measures the fall below the highest force so far', () => {
  expect(judge('countermovement', trial(19, 1900))).toMatchObject({
    status: 'pass',
    limit: 20,
    judged: { start: 1300, end: 2000 },
  });
  expect(judge('countermovement', trial(21, 1900))).toMatchObject({ status: 'warn', limit: 20 });
  expect(judge('countermovement', trial(51, 1900))).toMatchObject({ status: 'fail', limit: 50 });
  expect(judge('countermovement', trial(51, 1900)).value).toBeCloseTo(51, 9);
});

it('looks at the 0.7 s before the half rise only', () => {
  expect(judge('countermovement', trial(100, 1240)).value).toBeCloseTo(0, 9);
  // A dip that has already begun when the window opens is not a fall inside it.
  expect(judge('countermovement', trial(100, 1290)).value).toBeCloseTo(0, 9);
  expect(judge('countermovement', trial(100, 1310)).value).toBeCloseTo(100, 9);
  expect(judge('countermovement', trial(100, 1900, 1301)).notJudged).toBe('too-short');
});

it('uses means of 10 ms, so one low sample is a tenth of itself', () => {
  const total = Array.from({ length: 2500 }, (_, i) => (i > 2000 ? 2800 : i === 1900 ? 700 : 800));
  const result = judge('countermovement', trialOf({ total, halfRise: 2000, baseline: { start: 0, end: 1000 } }));
  expect(result.value).toBeCloseTo(10, 9);
});
