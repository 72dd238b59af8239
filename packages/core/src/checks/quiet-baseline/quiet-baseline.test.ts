import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/** 1000 samples of +-size about a level: SD = size * sqrt(1000 / 999). */
const trial = (size: number, weight = 700) => {
  const total = Array.from({ length: 1200 }, (_, i) => (i < 1000 ? weight + (i % 2 ? size : -size) : 2500));
  return trialOf({ total, halfRise: 1000, baseline: { start: 0, end: 1000 }, weight });
};

it('judges the SD of the baseline against 12 and 18 N in light people', () => {
  const sd = (size: number) => size * Math.sqrt(1000 / 999);
  expect(judge('quiet_baseline', trial(11.9))).toMatchObject({
    status: 'pass',
    limit: 12,
    unit: 'N',
    judged: { start: 0, end: 1000 },
  });
  expect(judge('quiet_baseline', trial(11.9)).value).toBeCloseTo(sd(11.9), 9);
  expect(judge('quiet_baseline', trial(12))).toMatchObject({ status: 'warn', limit: 12 });
  expect(judge('quiet_baseline', trial(18))).toMatchObject({ status: 'fail', limit: 18 });
});

it('judges it against 1 and 2 % of the weight in heavy ones', () => {
  expect(judge('quiet_baseline', trial(14.9, 1500))).toMatchObject({ status: 'pass', limit: 15 });
  expect(judge('quiet_baseline', trial(15, 1500))).toMatchObject({ status: 'warn', limit: 15 });
  expect(judge('quiet_baseline', trial(30, 1500))).toMatchObject({ status: 'fail', limit: 30 });
});

it('does not judge without a baseline or a weight', () => {
  const total = [700, 700, 2000];
  expect(
    judge('quiet_baseline', trialOf({ total, halfRise: 1, baseline: 'no-quiet-window', weight: 700 })).notJudged,
  ).toBe('no-baseline');
  expect(judge('quiet_baseline', trialOf({ total, halfRise: 1 })).notJudged).toBe('no-body-weight');
});
