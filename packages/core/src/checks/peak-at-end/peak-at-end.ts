import { meanOf, samplesIn } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

const levelShare = 0.95;

/** A test planned shorter than this rises for most of its length; the question makes no sense there. */
const shortestPlanned = 2;

/** Was the force still rising when the pull stopped? */
export const peakAtEnd: CheckDefinition = {
  id: 'peak_at_end',
  version: 1,
  title: 'Peak not last',
  finding: 'Still rising at the end',
  why: 'When the force still rises at the end, the athlete had more to give and the peak is too low.',
  definition:
    'Mean of F over the last 200 ms before the last index with F >= 0.95 F_p in (r, e], over the mean of the second before that, minus 1. Warn above +3 %. Not judged in tests planned shorter than 2 s.',
  source:
    'Comfort et al. 2019, Strength Cond J 41(2):57-79 (a peak at the end, from memory); windows and limit are proposals of this program',
  unit: '%',
  scope: 'trial',
  defaultLimits: { warn: 3 },
  judge(trial, limits) {
    const { forces, events, protocol } = trial;
    if (protocol.pullSeconds.planned < shortestPlanned) return notJudged('%', 'not-for-this-test');
    const level = levelShare * events.peak.force;
    let last = events.end;
    while (last > events.peak.index && (forces.total[last] as number) < level) last--;
    const split = last - samplesIn(0.2, forces.sampleRate);
    const judged = { start: split - samplesIn(1, forces.sampleRate), end: last };
    if (judged.start < Math.max(0, events.span.start) || split >= last) return notJudged('%', 'too-short');
    if (hasOpenGap(trial, judged)) return notJudged('%', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('%', 'no-body-weight', judged);
    const before = meanOf(forces.total, judged.start, split);
    const late = meanOf(forces.total, split, last);
    if (!(before > 0)) return notJudged('%', 'no-effort', judged);
    return judgeAbove(100 * (late / before - 1), levels, '%', judged, [
      { at: (judged.start + split - 1) / 2, force: before, label: 'second before' },
      { at: (split + last - 1) / 2, force: late, label: 'last 200 ms' },
    ]);
  },
};
