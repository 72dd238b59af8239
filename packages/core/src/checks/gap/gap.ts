import type { SampleSpan } from '../../recording/sample.ts';
import type { CheckDefinition } from '../check.ts';
import { judgeAbove, type Levels, pullStart } from '../judging.ts';

/** Missing samples of a list of gaps inside a span. */
function missingIn(gaps: readonly SampleSpan[], span: SampleSpan): number {
  let count = 0;
  for (const gap of gaps) count += Math.max(0, Math.min(gap.end, span.end) - Math.max(gap.start, span.start));
  return count;
}

/** Are samples of the pull missing? */
export const gapCheck: CheckDefinition = {
  id: 'gap',
  version: 1,
  title: 'No missing samples',
  finding: 'Samples are missing',
  why: 'Samples that never arrived may have held the onset or the peak. Short gaps are filled by a straight line and said; longer ones stay open and nothing is computed across them.',
  definition:
    'Number of missing samples between the start of the baseline (the start of the trial where there is none) and e. Warn when some were filled (gaps up to 5 ms), fail when some were not.',
  source: 'Definition of this program',
  unit: '1',
  scope: 'trial',
  defaultLimits: { warn: 0, fail: 0 },
  judge(trial, limits) {
    const { gaps, total } = trial.forces;
    const judged = { start: pullStart(trial), end: trial.events.end + 1 };
    const open = missingIn(gaps.open, judged);
    const filled = missingIn(gaps.filled, judged);
    const marks = [...gaps.open, ...gaps.filled]
      .filter((gap) => missingIn([gap], judged) > 0)
      .map((gap) => ({ at: gap.start, force: total[gap.start] as number, label: 'missing from here' }));
    // The two levels count different samples: an open gap fails, a filled one warns.
    const which: Levels = open > 0 ? pick(limits, 'fail') : pick(limits, 'warn');
    return judgeAbove(open + filled, which, '1', judged, marks, open > 0 ? open : filled);
  },
};

const pick = (limits: Readonly<Record<string, number>>, level: 'warn' | 'fail'): Levels =>
  limits[level] === undefined ? {} : { [level]: limits[level] };
