import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, isWeighted, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Was the athlete still enough for the threshold to mean something? */
export const quietBaseline: CheckDefinition = {
  id: 'quiet_baseline',
  version: 1,
  title: 'Quiet before pull',
  finding: 'Not quiet before the pull',
  why: 'The onset is where the force leaves the quiet level by several times its own noise. Sway or a restless athlete makes that noise large and the onset late.',
  definition:
    'S, the SD of the force over the baseline. Warn above the larger of 12 N and 1 % of W; fail above the larger of 18 N and 2 % of W.',
  source:
    "Limits are proposals of this program; the 1 s window: Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473",
  unit: 'N',
  scope: 'trial',
  defaultLimits: { warn: 12, warnShareOfWeight: 0.01, fail: 18, failShareOfWeight: 0.02 },
  judge(trial, limits) {
    if (!isWeighted(trial)) return notJudged('N', 'not-for-this-test');
    if (!trial.events.baseline.ok) return notJudged('N', 'no-baseline');
    const { start, end, mean, sd } = trial.events.baseline.value;
    const judged = { start, end };
    if (hasOpenGap(trial, judged)) return notJudged('N', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('N', 'no-body-weight', judged);
    return judgeAbove(sd, levels, 'N', judged, [{ at: start, force: mean, label: 'baseline mean' }]);
  },
};
