import { samplesIn, slidingMean } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, isWeighted, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Did the athlete dip before pulling? */
export const countermovement: CheckDefinition = {
  id: 'countermovement',
  version: 1,
  title: 'No dip before',
  finding: 'A dip before the pull',
  why: 'Sinking or unloading just before the pull starts it from below body weight: the onset moves and the first part of the rise is not a pull.',
  definition:
    'Largest fall of the 10 ms mean of F below its own running maximum in the 0.7 s before r, the half rise. Warn above 20 N, fail above 50 N.',
  source:
    'Comfort et al. 2019, Strength Cond J 41(2):57-79 (50 N, from memory); 20 N, 10 ms and 0.7 s are proposals of this program',
  unit: 'N',
  scope: 'trial',
  defaultLimits: { warn: 20, fail: 50 },
  judge(trial, limits) {
    if (!isWeighted(trial)) return notJudged('N', 'not-for-this-test');
    const { forces, events } = trial;
    const end = events.halfRise;
    const judged = { start: end - samplesIn(0.7, forces.sampleRate), end };
    const width = samplesIn(0.01, forces.sampleRate);
    if (judged.start < Math.max(0, events.span.start) || width < 1 || end - judged.start < width) {
      return notJudged('N', 'too-short');
    }
    if (hasOpenGap(trial, judged)) return notJudged('N', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('N', 'no-body-weight', judged);
    const means = slidingMean(forces.total, width, judged.start, judged.end);
    let highest = 0;
    let fall = 0;
    let from = 0;
    let to = 0;
    for (let i = 0; i < means.length; i++) {
      const mean = means[i] as number;
      const top = means[highest] as number;
      if (mean > top) highest = i;
      else if (top - mean > fall) {
        fall = top - mean;
        from = highest;
        to = i;
      }
    }
    const middle = judged.start + (width - 1) / 2;
    return judgeAbove(fall, levels, 'N', judged, [
      { at: from + middle, force: means[from] as number, label: 'before the dip' },
      { at: to + middle, force: means[to] as number, label: 'lowest' },
    ]);
  },
};
