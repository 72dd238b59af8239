import fc from 'fast-check';
import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const quiet = Array.from({ length: 1000 }, () => 800);
const trial = (pull: number[], onset: number | 'onset-not-found' = 1000) =>
  trialOf({ total: [...quiet, ...pull], halfRise: 1000, onset, baseline: { start: 0, end: 1000 } });

it('measures the valley as a share of the rise', () => {
  // Range 2000 N: 399 N are 19.95 %, 401 N are 20.05 %.
  expect(judge('double_pull', trial([1700, 2300, 1901, 2800, 900])).value).toBeCloseTo(19.95, 9);
  expect(judge('double_pull', trial([1700, 2300, 1901, 2800, 900]))).toMatchObject({ status: 'pass', limit: 20 });
  expect(judge('double_pull', trial([1700, 2300, 1899, 2800, 900])).status).toBe('warn');
  expect(judge('double_pull', trial([1700, 2300, 1899, 2800, 900]))).toMatchObject({
    judged: { start: 1000, end: 1005 },
    marks: [{ at: 1001 }, { at: 1002 }, { at: 1003 }],
  });
});

it('sees a second pull that is the lower one', () => {
  expect(judge('double_pull', trial([1700, 2800, 1899, 2300, 900])).status).toBe('warn');
  expect(judge('double_pull', trial([1700, 2800, 1899, 2300, 900])).value).toBeCloseTo(20.05, 9);
});

it('takes letting go for no valley', () => {
  expect(judge('double_pull', trial([1700, 2800, 2400, 1400, 900]))).toMatchObject({ value: 0, marks: [] });
});

// The definition, written out.
const byDefinition = (force: number[]) =>
  Math.max(...force.map((f, n) => Math.min(Math.max(...force.slice(0, n + 1)), Math.max(...force.slice(n))) - f));

it('finds the deepest of all valleys', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 900, max: 3000 }), { minLength: 2, maxLength: 30 }), (pull) => {
      const judged = trial([1700, ...pull]);
      const expected = (100 * byDefinition([1700, ...pull])) / (judged.events.peak.force - 800);
      expect(judge('double_pull', judged).value).toBeCloseTo(expected, 9);
    }),
  );
});

it('does not judge without an onset', () => {
  expect(judge('double_pull', trial([1700, 2800], 'onset-not-found')).notJudged).toBe('no-onset');
});
