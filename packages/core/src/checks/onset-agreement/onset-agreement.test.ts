import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const total = Array.from({ length: 2000 }, (_, i) => (i < 1200 ? 800 : 2500));
const trial = (onsets: TrialOptions['onsets'] & {}, sampleRate = 1000) =>
  trialOf({ total, sampleRate, halfRise: 1200, onsets });

it('is the spread of three rules', () => {
  const onsets = { 'five-sd': 1010, 'forward-five-sd': 1000, 'percent-weight-5': 1100, 'fixed-newton-75': 1190 };
  expect(judge('onset_agreement', trial(onsets))).toMatchObject({
    status: 'pass',
    value: 0.1,
    limit: 0.1,
    unit: 's',
    judged: { start: 1000, end: 1101 },
  });
  expect(judge('onset_agreement', trial(onsets)).marks).toHaveLength(3);
  expect(judge('onset_agreement', trial({ ...onsets, 'percent-weight-5': 1101 })).status).toBe('warn');
  expect(judge('onset_agreement', trial(onsets, 500))).toMatchObject({ status: 'warn', value: 0.2 });
});

it('needs two of them', () => {
  const two = { 'five-sd': 1010, 'forward-five-sd': 1000, 'percent-weight-5': 'needs-body-weight' } as const;
  expect(judge('onset_agreement', trial(two))).toMatchObject({ status: 'pass', value: 0.01 });
  expect(judge('onset_agreement', trial({ 'five-sd': 1010 })).notJudged).toBe('no-onset');
});
