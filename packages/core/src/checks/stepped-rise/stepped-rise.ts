import type { CheckDefinition } from '../check.ts';
import { firstSample, hasOpenGap, judgeAbove, levelsOf, notJudged, riseReaches, weightOf } from '../judging.ts';

/** Share of F_p - Q by which the force must lie below its running maximum to count as fallen back. */
const fallenShare = 0.05;

/** Does the force fall back on its way up? */
export const steppedRise: CheckDefinition = {
  id: 'stepped_rise',
  version: 1,
  title: 'One smooth rise',
  finding: 'The rise fell back and began again',
  why: 'A rise that falls back and starts again is two efforts: rates and impulses from the onset then mix them.',
  definition:
    'Longest time between the onset and the first index from r on with F >= B + 80 % of (F_p - B) for which F stays more than 5 % of F_p - Q below its own running maximum. Warn above 0.03 s.',
  source: 'Definition and limit are proposals of this program',
  unit: 's',
  scope: 'trial',
  defaultLimits: { warn: 0.03 },
  judge(trial, limits) {
    const { forces, events } = trial;
    if (!events.baseline.ok) return notJudged('s', 'no-baseline');
    if (!trial.onset.ok) return notJudged('s', 'no-onset');
    const start = firstSample(trial.onset.value.index);
    const reached = riseReaches(trial, events.baseline.value.mean, 0.8, start);
    if (reached === undefined) return notJudged('s', 'too-short');
    const judged = { start, end: reached + 1 };
    if (hasOpenGap(trial, judged)) return notJudged('s', 'gap', judged);
    const range = events.peak.force - events.quietLevel;
    if (!(range > 0)) return notJudged('s', 'no-effort', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('s', 'no-body-weight', judged);
    const margin = fallenShare * range;
    let maximum = Number.NEGATIVE_INFINITY;
    let run = 0;
    let longest = 0;
    let last = start;
    for (let i = start; i <= reached; i++) {
      const force = forces.total[i] as number;
      if (force > maximum) maximum = force;
      run = force < maximum - margin ? run + 1 : 0;
      if (run > longest) {
        longest = run;
        last = i;
      }
    }
    const marks =
      longest === 0
        ? []
        : [
            { at: last - longest + 1, force: forces.total[last - longest + 1] as number, label: 'falls back' },
            { at: last, force: forces.total[last] as number, label: 'recovers' },
          ];
    return judgeAbove(longest / forces.sampleRate, levels, 's', judged, marks);
  },
};
