import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const quiet = Array.from({ length: 1000 }, () => 800);
const trial = (pull: number[], onset: number | 'onset-not-found' = 1000) =>
  trialOf({ total: [...quiet, ...pull], halfRise: 1000, onset, baseline: { start: 0, end: 1000 } });

it('measures the fall before the peak as a share of the rise', () => {
  // Range 2000 N: 399 N are 19.95 %, 401 N are 20.05 %.
  expect(judge('double_pull', trial([1700, 2300, 1901, 2800, 900])).value).toBeCloseTo(19.95, 9);
  expect(judge('double_pull', trial([1700, 2300, 1901, 2800, 900]))).toMatchObject({ status: 'pass', limit: 20 });
  expect(judge('double_pull', trial([1700, 2300, 1899, 2800, 900])).status).toBe('warn');
  expect(judge('double_pull', trial([1700, 2300, 1899, 2800, 900])).marks?.map((mark) => mark.at)).toEqual([
    1001, 1002,
  ]);
});

it('does not judge without an onset', () => {
  expect(judge('double_pull', trial([1700, 2800], 'onset-not-found')).notJudged).toBe('no-onset');
});
