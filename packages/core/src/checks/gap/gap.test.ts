import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

const total = Array.from({ length: 2000 }, (_, i) => (i < 1000 ? 800 : 2500));
const trial = (gaps: TrialOptions['gaps'] & {}, baseline: TrialOptions['baseline'] & {} = { start: 100, end: 900 }) =>
  trialOf({ total, halfRise: 999, end: 1900, baseline, gaps });

it('passes, warns and fails', () => {
  expect(judge('gap', trial({}))).toMatchObject({
    status: 'pass',
    value: 0,
    limit: 0,
    judged: { start: 100, end: 1901 },
  });
  expect(judge('gap', trial({ filled: [{ start: 1200, end: 1203 }] }))).toMatchObject({ status: 'warn', value: 3 });
  expect(
    judge('gap', trial({ filled: [{ start: 1200, end: 1203 }], open: [{ start: 1500, end: 1510 }] })),
  ).toMatchObject({
    status: 'fail',
    value: 13,
    marks: [{ at: 1500 }, { at: 1200 }],
  });
});

it('counts what lies between the baseline and the end', () => {
  expect(judge('gap', trial({ open: [{ start: 50, end: 100 }] })).status).toBe('pass');
  expect(judge('gap', trial({ open: [{ start: 50, end: 101 }] }))).toMatchObject({ status: 'fail', value: 1 });
  expect(judge('gap', trial({ open: [{ start: 1900, end: 1950 }] }))).toMatchObject({ status: 'fail', value: 1 });
  expect(judge('gap', trial({ open: [{ start: 1901, end: 1950 }] })).status).toBe('pass');
  expect(judge('gap', trial({ open: [{ start: 50, end: 60 }] }, 'no-quiet-window')).status).toBe('fail');
});
