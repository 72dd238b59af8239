import type { CheckDefinition } from '../check.ts';
import { firstSample, hasOpenGap, isWeighted, judgeBelow, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Did a foot leave its plate during the pull? */
export const liftOff: CheckDefinition = {
  id: 'lift_off',
  version: 1,
  title: 'Both feet down',
  why: 'With one foot in the air the pull was made on one leg, and left and right cannot be compared.',
  definition:
    'Smallest force of either side between the onset and e. Fail below 20 N. Judged only in tests on both feet with a plate for each side.',
  source: 'Definition and limit are proposals of this program',
  unit: 'N',
  scope: 'trial',
  defaultLimits: { fail: 20 },
  judge(trial, limits) {
    const { forces, events, protocol } = trial;
    if (!isWeighted(trial) || protocol.limbs !== 'both') return notJudged('N', 'not-for-this-test');
    const { left, right } = forces;
    if (!left || !right) return notJudged('N', 'one-side-only');
    if (!trial.onset.ok) return notJudged('N', 'no-onset');
    const judged = { start: firstSample(trial.onset.value.index), end: events.end + 1 };
    if (judged.start >= judged.end) return notJudged('N', 'too-short');
    if (hasOpenGap(trial, judged)) return notJudged('N', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('N', 'no-body-weight', judged);
    let smallest = Number.POSITIVE_INFINITY;
    let at = judged.start;
    let label = 'left';
    for (let i = judged.start; i < judged.end; i++) {
      const l = left[i] as number;
      const r = right[i] as number;
      if (l < smallest) {
        smallest = l;
        at = i;
        label = 'left';
      }
      if (r < smallest) {
        smallest = r;
        at = i;
        label = 'right';
      }
    }
    return judgeBelow(smallest, levels, 'N', judged, [{ at, force: smallest, label }]);
  },
};
