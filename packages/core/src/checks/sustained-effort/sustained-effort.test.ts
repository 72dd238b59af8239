import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const total = Array.from({ length: 4000 }, (_, i) => (i < 1000 ? 800 : 2500));
const trial = (end: number, options: Partial<TrialOptions> = {}) =>
  trialOf({ total, halfRise: 999, end, onset: 1000, ...options });

it('judges the time from onset to end by the limits of the test', () => {
  expect(judge('sustained_effort', trial(3000))).toMatchObject({ status: 'pass', value: 2, limit: 2, unit: 's' });
  expect(judge('sustained_effort', trial(2999))).toMatchObject({ status: 'warn', limit: 2 });
  expect(judge('sustained_effort', trial(1999))).toMatchObject({ status: 'fail', limit: 1 });
  const explosive = { protocol: { pullSeconds: { planned: 1, warnUnder: 0.5, failUnder: 0.3 } } };
  expect(judge('sustained_effort', trial(1600, explosive))).toMatchObject({ status: 'pass', limit: 0.5 });
});

it('lets a method set its own', () => {
  expect(judge('sustained_effort', trial(3000), { warn: 2.5 })).toMatchObject({ status: 'warn', limit: 2.5 });
});

it('does not judge without an onset', () => {
  expect(judge('sustained_effort', trial(3000, { onset: 'no-effort' })).notJudged).toBe('no-onset');
});
