import { largestMean, samplesIn } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Is the peak one stray sample? */
export const spike: CheckDefinition = {
  id: 'spike',
  version: 1,
  title: 'Peak not stray',
  finding: 'A knock stands above the pull',
  why: 'A knock on the bar or a disturbed sample can stand far above what was held. The peak force would then be that, not strength.',
  definition: 'F_p minus the largest 20 ms mean of F in (r, e]. Warn above the larger of 5 S and 3 % of F_p.',
  source: 'Definition and limits are proposals of this program',
  unit: 'N',
  scope: 'trial',
  defaultLimits: { warnSds: 5, warnShareOfPeak: 0.03 },
  judge(trial, limits) {
    const { forces, events } = trial;
    const { unit } = forces;
    if (!events.baseline.ok) return notJudged(unit, 'no-baseline');
    const judged = { start: events.halfRise + 1, end: events.end + 1 };
    const width = samplesIn(0.02, forces.sampleRate);
    if (width < 1 || judged.end - judged.start < width) return notJudged(unit, 'too-short');
    if (hasOpenGap(trial, judged)) return notJudged(unit, 'gap', judged);
    const peak = events.peak.force;
    const levels = levelsOf(limits, { weight: weightOf(trial), peak, sd: events.baseline.value.sd });
    if (!levels) return notJudged(unit, 'no-body-weight', judged);
    const held = largestMean(forces.total, width, judged.start, judged.end);
    if (held === undefined) return notJudged(unit, 'too-short', judged);
    return judgeAbove(peak - held.mean, levels, unit, judged, [
      { at: events.peak.index, force: peak, label: 'peak' },
      { at: held.start + (width - 1) / 2, force: held.mean, label: 'largest 20 ms mean' },
    ]);
  },
};
