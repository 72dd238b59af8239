import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const pulling = Array.from({ length: 2000 }, (_, i) => (i < 1000 ? 800 : 2000));
/** Rests at 2 N, and at `force` for the samples [from, to). */
const resting = (force: number, from: number, to: number) =>
  Array.from({ length: 2000 }, (_, i) => (i >= from && i < to ? force : 2));
const trial = (force: number, from: number, to: number, options: Partial<TrialOptions> = {}) =>
  trialOf({
    left: pulling,
    right: resting(force, from, to),
    halfRise: 999,
    end: 1900,
    baseline: { start: 100, end: 900 },
    protocol: { limbs: 'left' },
    ...options,
  });

it('fails when the other side stays above 20 N between baseline and end', () => {
  expect(judge('other_foot', trial(20, 1500, 1520))).toMatchObject({
    status: 'pass',
    value: 20,
    limit: 20,
    judged: { start: 100, end: 1901 },
  });
  expect(judge('other_foot', trial(21, 1500, 1520))).toMatchObject({
    status: 'fail',
    marks: [{ at: 1509.5, label: 'right' }],
  });
  expect(judge('other_foot', trial(300, 80, 101)).value).toBeCloseTo((300 + 19 * 2) / 20, 9);
  expect(judge('other_foot', trial(300, 0, 100)).status).toBe('pass');
  expect(judge('other_foot', trial(300, 1901, 2000)).status).toBe('pass');
  const mirrored = { left: resting(21, 100, 120), right: pulling, protocol: { limbs: 'right' as const } };
  expect(judge('other_foot', trial(0, 0, 0, mirrored)).status).toBe('fail');
});

it('does not take the noise of single samples for a foot', () => {
  expect(judge('other_foot', trial(25, 1500, 1501)).value).toBeCloseTo((25 + 19 * 2) / 20, 9);
});

it('is for tests on one leg with both plates', () => {
  expect(judge('other_foot', trial(300, 1500, 1600, { protocol: { limbs: 'both' } })).notJudged).toBe(
    'not-for-this-test',
  );
  expect(judge('other_foot', trialOf({ left: pulling, halfRise: 999, protocol: { limbs: 'left' } })).notJudged).toBe(
    'one-side-only',
  );
  expect(judge('other_foot', trial(300, 1500, 1600, { baseline: 'no-quiet-window' })).notJudged).toBe('no-baseline');
});
