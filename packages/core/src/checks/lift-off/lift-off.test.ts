import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

/** Side at 400 N, at 1200 N from sample 1000 on, and at `lowest` for the samples [from, to). */
const side = (lowest: number, from: number, to: number) =>
  Array.from({ length: 2000 }, (_, i) => (i >= from && i < to ? lowest : i < 1000 ? 400 : 1200));
const trial = (lowest: number, from: number, to: number, options: Partial<TrialOptions> = {}) =>
  trialOf({
    left: side(400, -1, -1),
    right: side(lowest, from, to),
    halfRise: 999,
    onset: 990,
    end: 1900,
    ...options,
  });

it('fails when a side stays below 20 N between onset and end', () => {
  expect(judge('lift_off', trial(20, 1500, 1520))).toMatchObject({
    status: 'pass',
    value: 20,
    limit: 20,
    judged: { start: 990, end: 1920 },
  });
  expect(judge('lift_off', trial(19.9, 1500, 1520))).toMatchObject({
    status: 'fail',
    marks: [{ at: 1509.5, label: 'right' }],
  });
  expect(judge('lift_off', trial(19.9, 1500, 1519)).status).toBe('pass');
  expect(judge('lift_off', trial(0, 960, 1000)).status).toBe('pass');
  expect(judge('lift_off', trial(0, 960, 1010)).status).toBe('fail');
});

it('fails when a side stands still at zero', () => {
  expect(judge('lift_off', trial(0, 0, 2000))).toMatchObject({ status: 'fail', value: 0, marks: [{ label: 'right' }] });
});

it('looks 20 ms past the end, where a plate that falls silent ends the effort', () => {
  expect(judge('lift_off', trial(0, 1900, 2000)).status).toBe('fail');
  expect(judge('lift_off', trial(0, 1901, 2000)).value).toBeCloseTo(1200 / 20, 9);
  // The trial ends with the samples.
  expect(judge('lift_off', trial(0, 1990, 2000, { end: 1999 }))).toMatchObject({ judged: { end: 2000 }, value: 600 });
});

it('is for tests on both feet with both plates', () => {
  const other = { protocol: { limbs: 'left' as const } };
  expect(judge('lift_off', trial(0, 1500, 1600, other)).notJudged).toBe('not-for-this-test');
  expect(judge('lift_off', trialOf({ left: side(0, 1, 2), halfRise: 999, onset: 990 })).notJudged).toBe(
    'one-side-only',
  );
  expect(judge('lift_off', trial(0, 1500, 1600, { onset: 'onset-not-found' })).notJudged).toBe('no-onset');
  expect(judge('lift_off', trial(0, 1500, 1600, { onset: 1990, end: 1995 })).notJudged).toBe('too-short');
});
