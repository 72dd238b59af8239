import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

/** Holds 2000 N, and `last` N in the final 200 ms before the last sample near the peak at 4000. */
const trial = (last: number, options: Partial<TrialOptions> = {}) =>
  trialOf({
    total: Array.from({ length: 4500 }, (_, i) => (i < 1000 ? 800 : i < 3800 ? 2000 : i <= 4000 ? last : 800)),
    halfRise: 999,
    end: 4001,
    onset: 1000,
    ...options,
  });

it('compares the last 200 ms with the second before', () => {
  expect(judge('peak_at_end', trial(2059)).value).toBeCloseTo(2.95, 9);
  expect(judge('peak_at_end', trial(2059))).toMatchObject({
    status: 'pass',
    limit: 3,
    unit: '%',
    judged: { start: 2800, end: 4000 },
  });
  expect(judge('peak_at_end', trial(2061)).status).toBe('warn');
  expect(judge('peak_at_end', trial(1950)).value).toBeCloseTo(-2.5, 9);
});

it('leaves out what comes after the force fell below 95 % of the peak', () => {
  // 1800 N is under 1900 N: the last sample near the peak is 3799.
  expect(judge('peak_at_end', trial(1800)).judged).toEqual({ start: 2599, end: 3799 });
});

it('does not ask in a short test, or without 1.2 s to look at', () => {
  expect(
    judge('peak_at_end', trial(2100, { protocol: { pullSeconds: { planned: 1, warnUnder: 0.5, failUnder: 0.3 } } }))
      .notJudged,
  ).toBe('not-for-this-test');
  const total = Array.from({ length: 1150 }, (_, i) => (i < 500 ? 800 : 2000));
  expect(judge('peak_at_end', trialOf({ total, halfRise: 499 })).notJudged).toBe('too-short');
});

it('ends each window before the sample that closes it', () => {
  // A slope of 1 N a sample up to the last sample: the windows [l - 200, l) and [l - 1200, l - 200) have their means half a sample
  // before their middles.
  const total = Array.from({ length: 4001 }, (_, i) => (i < 1000 ? 800 : 20_000 + i));
  const late = 20_000 + 4000 - 100.5;
  const before = 20_000 + 3800 - 500.5;
  expect(judge('peak_at_end', trialOf({ total, halfRise: 999 })).value).toBeCloseTo(100 * (late / before - 1), 9);
});
