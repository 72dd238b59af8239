import type { CheckDefinition } from '../check.ts';
import { firstSample, hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Were there two pulls in one trial? */
export const doublePull: CheckDefinition = {
  id: 'double_pull',
  version: 1,
  title: 'One single pull',
  why: 'A clear fall of force before the peak means the athlete let go and pulled again: the peak and the onset then belong to different pulls.',
  definition:
    'Largest fall of F below its own running maximum between the onset and the peak, as a share of F_p - Q. Warn above 20 %.',
  source: 'Definition and limit are proposals of this program',
  unit: '%',
  scope: 'trial',
  defaultLimits: { warn: 20 },
  judge(trial, limits) {
    const { forces, events } = trial;
    if (!trial.onset.ok) return notJudged('%', 'no-onset');
    const start = firstSample(trial.onset.value.index);
    const end = events.peak.index;
    if (start > end) return notJudged('%', 'too-short');
    const judged = { start, end: end + 1 };
    if (hasOpenGap(trial, judged)) return notJudged('%', 'gap', judged);
    const range = events.peak.force - events.quietLevel;
    if (!(range > 0)) return notJudged('%', 'no-effort', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('%', 'no-body-weight', judged);
    let highest = start;
    let maximum = forces.total[start] as number;
    let fall = 0;
    let from = start;
    let to = start;
    for (let i = start + 1; i <= end; i++) {
      const force = forces.total[i] as number;
      if (force > maximum) {
        maximum = force;
        highest = i;
      } else if (maximum - force > fall) {
        fall = maximum - force;
        from = highest;
        to = i;
      }
    }
    return judgeAbove((100 * fall) / range, levels, '%', judged, [
      { at: from, force: forces.total[from] as number, label: 'before the fall' },
      { at: to, force: forces.total[to] as number, label: 'lowest' },
    ]);
  },
};
