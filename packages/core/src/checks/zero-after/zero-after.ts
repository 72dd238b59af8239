import type { CheckDefinition } from '../check.ts';
import { isWeighted, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Did the plates come back to zero? */
export const zeroAfter: CheckDefinition = {
  id: 'zero_after',
  version: 1,
  title: 'Zero came back',
  finding: 'The zero did not come back',
  why: 'Plates that do not read zero once the athlete has stepped off have drifted or been moved; every force of the turn is off by part of that.',
  definition:
    'Mean of the unloaded plates after the athlete stepped off minus the one before, judged by its size. Warn above 5 N; fail above the larger of 15 N and 0.5 % of F_p. Live only.',
  source: 'Definition and limits are proposals of this program',
  unit: 'N',
  scope: 'trial',
  defaultLimits: { warn: 5, fail: 15, failShareOfPeak: 0.005 },
  judge(trial, limits) {
    if (!isWeighted(trial)) return notJudged('N', 'not-for-this-test');
    if (!trial.unloaded) return notJudged('N', 'not-in-file');
    const drift = trial.unloaded.after - trial.unloaded.before;
    const levels = levelsOf(limits, { weight: weightOf(trial), peak: trial.events.peak.force });
    if (!levels) return notJudged('N', 'no-body-weight');
    return judgeAbove(drift, levels, 'N', undefined, undefined, Math.abs(drift));
  },
};
