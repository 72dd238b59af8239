import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

/** Baseline at `base`, the last 400 ms before the jump at sample 2000 at `late`; q is 1999. */
const trial = (base: number, late: number, options: Partial<TrialOptions> = {}) =>
  trialOf({
    total: Array.from({ length: 2500 }, (_, i) => (i >= 2000 ? 2800 : i >= 1600 ? late : base)),
    halfRise: 2000,
    baseline: { start: 100, end: 1100 },
    weight: 800,
    ...options,
  });

it('takes the one larger in size, with its sign', () => {
  expect(judge('pretension', trial(800, 829))).toMatchObject({
    status: 'pass',
    limit: 30,
    judged: { start: 1649, end: 1849 },
  });
  expect(judge('pretension', trial(800, 829)).value).toBeCloseTo(29, 9);
  expect(judge('pretension', trial(800, 831)).status).toBe('warn');
  expect(judge('pretension', trial(800, 851)).status).toBe('fail');
  expect(judge('pretension', trial(860, 800))).toMatchObject({ status: 'fail', judged: { start: 100, end: 1100 } });
  expect(judge('pretension', trial(765, 810)).value).toBeCloseTo(-35, 9);
  expect(judge('pretension', trial(765, 810)).status).toBe('warn');
});

it('needs a weight from off the bar', () => {
  expect(judge('pretension', trial(800, 900, { weightFrom: 'baseline' })).notJudged).toBe('no-body-weight');
  expect(judge('pretension', trial(800, 900, { weightFrom: 'given' })).status).toBe('fail');
  expect(judge('pretension', trial(800, 900, { baseline: 'no-quiet-window' })).notJudged).toBe('no-baseline');
});

it('takes limits as shares of weight when a method gives those', () => {
  expect(judge('pretension', trial(800, 839), { warnShareOfWeight: 0.05 })).toMatchObject({
    status: 'pass',
    limit: 40,
  });
  expect(judge('pretension', trial(800, 841), { warnShareOfWeight: 0.05 }).status).toBe('warn');
});
