import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/** Stands at 800 N, steps up by `step` at a sample, and jumps to 2800 N at sample 2000: q is 1999. */
const trial = (step: number, at: number, options: { sampleRate?: number; weight?: number } = {}) =>
  trialOf({
    total: Array.from({ length: 2500 }, (_, i) => (i >= 2000 ? 2800 : i >= at ? 800 + step : 800)),
    halfRise: 2000,
    baseline: { start: 0, end: 500 },
    weight: 800,
    ...options,
  });

it('sees a step in the second that ends 150 ms before the rise', () => {
  expect(judge('steady_before', trial(29, 1500))).toMatchObject({
    status: 'pass',
    limit: 30,
    judged: { start: 849, end: 1849 },
  });
  expect(judge('steady_before', trial(29, 1500)).value).toBeCloseTo(29, 9);
  expect(judge('steady_before', trial(31, 1500)).status).toBe('warn');
  expect(judge('steady_before', trial(51, 1500))).toMatchObject({ status: 'fail', limit: 50 });
});

it('uses windows of 20 ms that lie inside that second', () => {
  // The last window is [1829, 1849): a step at 1839 is in half of it, one at 1849 is not seen.
  expect(judge('steady_before', trial(40, 1839)).value).toBeCloseTo(20, 9);
  expect(judge('steady_before', trial(40, 1849)).value).toBeCloseTo(0, 9);
  // The first is [849, 869): a step at 849 or before leaves everything level.
  expect(judge('steady_before', trial(40, 849)).value).toBeCloseTo(0, 9);
  expect(judge('steady_before', trial(40, 859)).value).toBeCloseTo(20, 9);
});

it('needs that whole second', () => {
  expect(judge('steady_before', trial(40, 500, { sampleRate: 1738 })).notJudged).toBeUndefined();
  expect(judge('steady_before', trial(40, 500, { sampleRate: 1740 })).notJudged).toBe('too-short');
});
