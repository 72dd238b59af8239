import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeBelow, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Did the effort begin from rest? */
export const restBefore: CheckDefinition = {
  id: 'rest_before',
  version: 1,
  title: 'Began from rest',
  finding: 'The pull did not begin from rest',
  why: 'When the recording begins in the middle of a pull, or the athlete already holds most of the force, the quiet second lies on the plateau: it is not standing, and a body weight or an onset read from it is wrong.',
  definition: 'F_p - B as a share of F_p. Warn below 25 %.',
  source: 'Definition and limit are proposals of this program',
  unit: '%',
  scope: 'trial',
  bound: 'least',
  defaultLimits: { warn: 25 },
  judge(trial, limits) {
    const { baseline, peak } = trial.events;
    if (!baseline.ok) return notJudged('%', 'no-baseline');
    const { start, end, mean } = baseline.value;
    const judged = { start, end };
    if (hasOpenGap(trial, judged)) return notJudged('%', 'gap', judged);
    if (!(peak.force > 0)) return notJudged('%', 'no-effort', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('%', 'no-body-weight', judged);
    return judgeBelow((100 * (peak.force - mean)) / peak.force, levels, '%', judged, [
      { at: start, force: mean, label: 'baseline mean' },
      { at: peak.index, force: peak.force, label: 'peak' },
    ]);
  },
};
