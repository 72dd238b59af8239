import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const pulling = Array.from({ length: 2000 }, (_, i) => (i < 1000 ? 800 : 2000));
const resting = (force: number, at: number) => Array.from({ length: 2000 }, (_, i) => (i === at ? force : 2));
const trial = (force: number, at: number, options: Partial<TrialOptions> = {}) =>
  trialOf({
    left: pulling,
    right: resting(force, at),
    halfRise: 999,
    end: 1900,
    baseline: { start: 100, end: 900 },
    protocol: { limbs: 'left' },
    ...options,
  });

it('fails when the other side passes 20 N between baseline and end', () => {
  expect(judge('other_foot', trial(20, 1500))).toMatchObject({
    status: 'pass',
    value: 20,
    limit: 20,
    judged: { start: 100, end: 1901 },
  });
  expect(judge('other_foot', trial(21, 1500))).toMatchObject({
    status: 'fail',
    marks: [{ at: 1500, force: 21, label: 'right' }],
  });
  expect(judge('other_foot', trial(300, 99)).status).toBe('pass');
  expect(judge('other_foot', trial(300, 1901)).status).toBe('pass');
  const mirrored = { left: resting(21, 100), right: pulling, protocol: { limbs: 'right' as const } };
  expect(judge('other_foot', trial(0, 0, mirrored)).status).toBe('fail');
});

it('is for tests on one leg with both plates', () => {
  expect(judge('other_foot', trial(300, 1500, { protocol: { limbs: 'both' } })).notJudged).toBe('not-for-this-test');
  expect(judge('other_foot', trialOf({ left: pulling, halfRise: 999, protocol: { limbs: 'left' } })).notJudged).toBe(
    'one-side-only',
  );
  expect(judge('other_foot', trial(300, 1500, { baseline: 'no-quiet-window' })).notJudged).toBe('no-baseline');
});
