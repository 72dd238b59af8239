import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/** A quiet second at `rest`, then a peak of 2000. */
const trial = (rest: number, more = {}) =>
  trialOf({
    total: Array.from({ length: 1500 }, (_, i) => (i < 1000 ? rest : 2000)),
    halfRise: 1000,
    baseline: { start: 0, end: 1000 },
    ...more,
  });

it('is the rise as a share of the peak', () => {
  expect(judge('rest_before', trial(800))).toMatchObject({ status: 'pass', value: 60, limit: 25, unit: '%' });
  expect(judge('rest_before', trial(1500)).status).toBe('pass');
  expect(judge('rest_before', trial(1501))).toMatchObject({ status: 'warn', judged: { start: 0, end: 1000 } });
});

it('judges tests without body weight too', () => {
  const without = { protocol: { load: 'none' as const }, weight: 'needs-body-weight' as const };
  expect(judge('rest_before', trial(2, without)).value).toBeCloseTo(99.9, 9);
  expect(judge('rest_before', trial(1800, without)).status).toBe('warn');
});

it('needs a baseline and a positive peak', () => {
  expect(judge('rest_before', trial(800, { baseline: 'no-quiet-window' })).notJudged).toBe('no-baseline');
  const below = trialOf({ total: [-9, -9, -1], halfRise: 1, baseline: { start: 0, end: 2 } });
  expect(judge('rest_before', below).notJudged).toBe('no-effort');
});
