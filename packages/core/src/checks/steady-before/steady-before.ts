import { samplesIn, slidingMean } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, isWeighted, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Did the force stay level in the last second before the rise? */
export const steadyBefore: CheckDefinition = {
  id: 'steady_before',
  version: 1,
  title: 'Steady before pull',
  finding: 'Not steady just before the pull',
  why: 'A step onto the plate, a tug at the bar or a shift of weight just before the pull changes what the athlete pulls from, even when an earlier second was quiet.',
  definition:
    'Largest minus smallest 20 ms mean of F over the 1 s that ends 150 ms before q, the start of the rise. Warn above 30 N, fail above 50 N.',
  source:
    'Comfort et al. 2019, Strength Cond J 41(2):57-79 (50 N, from memory); 30 N, 20 ms and 150 ms are proposals of this program',
  unit: 'N',
  scope: 'trial',
  defaultLimits: { warn: 30, fail: 50 },
  judge(trial, limits) {
    if (!isWeighted(trial)) return notJudged('N', 'not-for-this-test');
    const { forces, events } = trial;
    if (!events.riseStart.ok) return notJudged('N', 'no-baseline');
    const end = events.riseStart.value - samplesIn(0.15, forces.sampleRate);
    const judged = { start: end - samplesIn(1, forces.sampleRate), end };
    const width = samplesIn(0.02, forces.sampleRate);
    if (judged.start < Math.max(0, events.span.start) || width < 1) return notJudged('N', 'too-short');
    if (hasOpenGap(trial, judged)) return notJudged('N', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('N', 'no-body-weight', judged);
    const means = slidingMean(forces.total, width, judged.start, judged.end);
    let low = 0;
    let high = 0;
    for (let i = 1; i < means.length; i++) {
      if ((means[i] as number) < (means[low] as number)) low = i;
      if ((means[i] as number) > (means[high] as number)) high = i;
    }
    const smallest = means[low] as number;
    const largest = means[high] as number;
    const middle = judged.start + (width - 1) / 2;
    return judgeAbove(largest - smallest, levels, 'N', judged, [
      { at: low + middle, force: smallest, label: 'lowest' },
      { at: high + middle, force: largest, label: 'highest' },
    ]);
  },
};
