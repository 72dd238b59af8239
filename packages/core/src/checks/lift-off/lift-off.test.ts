import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const side = (lowest: number, at: number) =>
  Array.from({ length: 2000 }, (_, i) => (i === at ? lowest : i < 1000 ? 400 : 1200));
const trial = (lowest: number, at: number, options: Partial<TrialOptions> = {}) =>
  trialOf({ left: side(400, -1), right: side(lowest, at), halfRise: 999, onset: 990, end: 1900, ...options });

it('fails when a side goes below 20 N between onset and end', () => {
  expect(judge('lift_off', trial(20, 1500))).toMatchObject({
    status: 'pass',
    value: 20,
    limit: 20,
    judged: { start: 990, end: 1901 },
  });
  expect(judge('lift_off', trial(19.9, 1500))).toMatchObject({
    status: 'fail',
    marks: [{ at: 1500, force: 19.9, label: 'right' }],
  });
  expect(judge('lift_off', trial(0, 989)).status).toBe('pass');
  expect(judge('lift_off', trial(0, 1900)).status).toBe('fail');
  expect(judge('lift_off', trial(0, 1901)).status).toBe('pass');
});

it('is for tests on both feet with both plates', () => {
  expect(judge('lift_off', trial(0, 1500, { protocol: { limbs: 'left' } })).notJudged).toBe('not-for-this-test');
  expect(judge('lift_off', trialOf({ left: side(0, 1500), halfRise: 999, onset: 990 })).notJudged).toBe(
    'one-side-only',
  );
  expect(judge('lift_off', trial(0, 1500, { onset: 'onset-not-found' })).notJudged).toBe('no-onset');
});
