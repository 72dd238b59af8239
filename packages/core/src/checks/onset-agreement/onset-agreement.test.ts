import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const total = Array.from({ length: 2000 }, (_, i) => (i < 1200 ? 800 : 2500));
const trial = (onsets: TrialOptions['onsets'] & {}, options: Partial<TrialOptions> = {}) =>
  trialOf({ total, halfRise: 1200, onsets, ...options });

const onsets = { 'local-line': 1010, 'five-sd': 400, 'forward-five-sd': 1000, 'percent-weight-5': 1110 };

it('is the time between the own rule and a share of body weight', () => {
  expect(judge('onset_agreement', trial(onsets))).toMatchObject({
    status: 'pass',
    value: 0.1,
    limit: 0.1,
    unit: 's',
    judged: { start: 1010, end: 1111 },
    marks: [{ at: 1010 }, { at: 1110 }],
  });
  expect(judge('onset_agreement', trial({ ...onsets, 'percent-weight-5': 1111 })).status).toBe('warn');
  expect(judge('onset_agreement', trial({ ...onsets, 'local-line': 1211 })).status).toBe('warn');
  expect(judge('onset_agreement', trial(onsets, { sampleRate: 500 }))).toMatchObject({ status: 'warn', value: 0.2 });
});

it('follows the rule of the method, and has another where that is the share itself', () => {
  expect(judge('onset_agreement', trial(onsets, { rule: 'five-sd' }))).toMatchObject({ status: 'warn', value: 0.71 });
  expect(judge('onset_agreement', trial(onsets, { rule: 'percent-weight-5' })).value).toBeCloseTo(0.1, 12);
});

it('does not follow a person, and needs both rules', () => {
  expect(judge('onset_agreement', trial(onsets, { onset: 1500 })).value).toBeCloseTo(0.1, 12);
  const without = { 'local-line': 1010, 'five-sd': 1000, 'percent-weight-5': 'needs-body-weight' } as const;
  expect(judge('onset_agreement', trial(without)).notJudged).toBe('no-onset');
});
