import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Is the signal quiet enough for rates? */
export const noiseForRfd: CheckDefinition = {
  id: 'noise_for_rfd',
  version: 1,
  title: 'Quiet for rates',
  finding: 'Too restless for early rates',
  why: 'The onset threshold is five times the noise. When that is a visible part of the whole rise, the onset comes late and early rates are wrong, while the peak still stands.',
  definition: '5 S as a share of F_p - B. Warn above 5 %.',
  source:
    'Maffiuletti et al. 2016, Eur J Appl Physiol 116:1091-1116 (noise and thresholds); the limit is a proposal of this program',
  unit: '%',
  scope: 'rates',
  defaultLimits: { warn: 5 },
  judge(trial, limits) {
    const { baseline, peak } = trial.events;
    if (!baseline.ok) return notJudged('%', 'no-baseline');
    const { start, end, mean, sd } = baseline.value;
    const judged = { start, end };
    if (hasOpenGap(trial, judged)) return notJudged('%', 'gap', judged);
    if (!(peak.force > mean)) return notJudged('%', 'no-effort', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('%', 'no-body-weight', judged);
    return judgeAbove((100 * 5 * sd) / (peak.force - mean), levels, '%', judged, [
      { at: end - 1, force: mean + 5 * sd, label: 'B + 5 S' },
      { at: peak.index, force: peak.force, label: 'peak' },
    ]);
  },
};
