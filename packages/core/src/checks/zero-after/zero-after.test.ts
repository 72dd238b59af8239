import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const trial = (after: number, peak = 2000) =>
  trialOf({ total: [800, 800, peak], halfRise: 1, weight: 800, unloaded: { before: 1, after: 1 + after } });

it('judges the size of the drift', () => {
  expect(judge('zero_after', trial(5))).toMatchObject({ status: 'pass', value: 5, limit: 5, unit: 'N' });
  expect(judge('zero_after', trial(-5.5))).toMatchObject({ status: 'warn', value: -5.5, limit: 5 });
  expect(judge('zero_after', trial(15)).status).toBe('warn');
  expect(judge('zero_after', trial(16))).toMatchObject({ status: 'fail', limit: 15 });
});

it('allows half a percent of a large peak', () => {
  expect(judge('zero_after', trial(19, 4000)).status).toBe('warn');
  expect(judge('zero_after', trial(21, 4000))).toMatchObject({ status: 'fail', limit: 20 });
});

it('is not judged in a file', () => {
  expect(judge('zero_after', trialOf({ total: [800, 800, 2000], halfRise: 1 })).notJudged).toBe('not-in-file');
});
