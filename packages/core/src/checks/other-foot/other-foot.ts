import { largestMean, samplesIn } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, isWeighted, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Time over which the force is averaged, so that the noise of single samples does not decide, s. */
const averaged = 0.02;

/** In a single-leg test: did the other foot help? */
export const otherFoot: CheckDefinition = {
  id: 'other_foot',
  version: 1,
  title: 'Other foot up',
  finding: 'The other foot pressed on its plate',
  why: 'A single-leg pull in which the other foot presses on its plate is a pull on two legs.',
  definition:
    'Largest 20 ms mean of the force of the other side between the start of the baseline and e. Fail above 20 N. Judged only in tests on one leg with a plate for each side.',
  source: 'Definition and limit are proposals of this program',
  unit: 'N',
  scope: 'trial',
  defaultLimits: { fail: 20 },
  judge(trial, limits) {
    const { forces, events, protocol } = trial;
    const { limbs } = protocol;
    if (!isWeighted(trial) || (limbs !== 'left' && limbs !== 'right')) return notJudged('N', 'not-for-this-test');
    const label = limbs === 'left' ? 'right' : 'left';
    const other = forces[label];
    if (!other) return notJudged('N', 'one-side-only');
    if (!events.baseline.ok) return notJudged('N', 'no-baseline');
    const judged = { start: events.baseline.value.start, end: events.end + 1 };
    if (hasOpenGap(trial, judged)) return notJudged('N', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('N', 'no-body-weight', judged);
    const width = Math.max(1, samplesIn(averaged, forces.sampleRate));
    const most = largestMean(other, width, judged.start, judged.end);
    if (most === undefined) return notJudged('N', 'too-short', judged);
    const force = most.mean;
    const at = most.start + (width - 1) / 2;
    return judgeAbove(force, levels, 'N', judged, [{ at, force, label }]);
  },
};
