import { valueAt } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeBelow, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Did the athlete pull long enough? */
export const sustainedEffort: CheckDefinition = {
  id: 'sustained_effort',
  version: 1,
  title: 'Held long enough',
  finding: 'Let go too early',
  why: 'The largest force often comes a second or more into the pull. A pull that ends early may end below what the athlete can do.',
  definition:
    'Time from the onset to e, the end of the effort. The limits are those of the test (2 s and 1 s for the long pull; an explosive test has its own), unless the method sets its own.',
  source:
    'Comfort et al. 2019, Strength Cond J 41(2):57-79 (pulls of 3 to 5 s, from memory); limits are proposals of this program',
  unit: 's',
  scope: 'trial',
  bound: 'least',
  // Empty on purpose: the length of a pull belongs to the test, so its limits come from the protocol.
  defaultLimits: {},
  judge(trial, limits) {
    if (!trial.onset.ok) return notJudged('s', 'no-onset');
    const { forces, events, protocol } = trial;
    const start = trial.onset.value.index;
    const judged = { start, end: events.end + 1 };
    if (hasOpenGap(trial, judged)) return notJudged('s', 'gap', judged);
    const { warnUnder: warn, failUnder: fail } = protocol.pullSeconds;
    const levels = levelsOf({ warn, fail, ...limits }, { weight: weightOf(trial) });
    if (!levels) return notJudged('s', 'no-body-weight', judged);
    return judgeBelow((events.end - start) / forces.sampleRate, levels, 's', judged, [
      { at: start, force: valueAt(forces.total, start), label: 'onset' },
      { at: events.end, force: forces.total[events.end] as number, label: 'end' },
    ]);
  },
};
