import { meanOf, samplesIn } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, isWeighted, judgeAbove, levelsOf, notJudged } from '../judging.ts';

/** Was the athlete already pulling (or hanging on the bar) before the pull? */
export const pretension: CheckDefinition = {
  id: 'pretension',
  version: 1,
  title: 'No early tension',
  finding: 'Tension on the bar before the pull',
  why: 'Tension held on the bar before the pull lowers the rate of force development and, less, the peak. It only shows against a weight that was measured off the bar.',
  definition:
    'The one larger in size of: mean of F over the 200 ms that end 150 ms before q, minus W; and B minus W. Warn beyond 30 N either way, fail beyond 50 N. Needs a weighed or given W.',
  source:
    'Viitasalo 1982, Int J Sports Med 3(3):149-152; Comfort et al. 2019, Strength Cond J 41(2):57-79 (50 N, from memory); 30 N is a proposal of this program',
  unit: 'N',
  scope: 'trial',
  defaultLimits: { warn: 30, fail: 50 },
  judge(trial, limits) {
    if (!isWeighted(trial)) return notJudged('N', 'not-for-this-test');
    const { forces, events, bodyWeight } = trial;
    if (!bodyWeight.ok || bodyWeight.value.from === 'baseline') return notJudged('N', 'no-body-weight');
    if (!events.baseline.ok || !events.riseStart.ok) return notJudged('N', 'no-baseline');
    const end = events.riseStart.value - samplesIn(0.15, forces.sampleRate);
    const late = { start: end - samplesIn(0.2, forces.sampleRate), end };
    if (late.start < Math.max(0, events.span.start) || late.end <= late.start) return notJudged('N', 'too-short');
    const { start: baselineStart, end: baselineEnd, mean } = events.baseline.value;
    const baseline = { start: baselineStart, end: baselineEnd };
    if (hasOpenGap(trial, late)) return notJudged('N', 'gap', late);
    if (hasOpenGap(trial, baseline)) return notJudged('N', 'gap', baseline);
    const weight = bodyWeight.value.value;
    const levels = levelsOf(limits, { weight });
    if (!levels) return notJudged('N', 'no-body-weight', late);
    const before = meanOf(forces.total, late.start, late.end) - weight;
    const standing = mean - weight;
    const lateIsLarger = Math.abs(before) >= Math.abs(standing);
    const value = lateIsLarger ? before : standing;
    const judged = lateIsLarger ? late : baseline;
    const marks = [
      { at: judged.start, force: value + weight, label: lateIsLarger ? 'just before the pull' : 'baseline mean' },
      { at: judged.end, force: weight, label: 'body weight' },
    ];
    return judgeAbove(value, levels, 'N', judged, marks, Math.abs(value));
  },
};
