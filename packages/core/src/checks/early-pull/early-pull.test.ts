import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const total = Array.from({ length: 2000 }, (_, i) => (i < 1000 ? 800 : 2500));
const trial = (options: Partial<TrialOptions>) => trialOf({ total, halfRise: 999, onset: 1000, ...options });

it('warns when the onset comes more than 0.1 s before the cue', () => {
  expect(judge('early_pull', trial({ cue: 1100 }))).toMatchObject({
    status: 'pass',
    value: 0.1,
    limit: 0.1,
    unit: 's',
  });
  expect(judge('early_pull', trial({ cue: 1100.5 }))).toMatchObject({
    status: 'warn',
    judged: { start: 1000, end: 1101.5 },
  });
  expect(judge('early_pull', trial({ cue: 800 }))).toMatchObject({ status: 'pass', value: -0.2 });
});

it('is not judged without a cue or an onset', () => {
  expect(judge('early_pull', trial({})).notJudged).toBe('no-cue');
  expect(judge('early_pull', trial({ cue: 900, onset: 'onset-not-found' })).notJudged).toBe('no-onset');
});
