import type { CheckDefinition } from '../check.ts';
import { firstSample, hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Were there two pulls in one trial? */
export const doublePull: CheckDefinition = {
  id: 'double_pull',
  version: 1,
  title: 'One single pull',
  finding: 'Two pulls in one',
  why: 'A clear valley in the force means the athlete let go and pulled again: the peak and the onset may then belong to different pulls, and neither pull was held.',
  definition:
    'Deepest valley between the onset and e: the largest, over n, of min(largest F in [o, n], largest F in [n, e]) - F_n, as a share of F_p - Q. Warn above 20 %.',
  source: 'Definition and limit are proposals of this program',
  unit: '%',
  scope: 'trial',
  defaultLimits: { warn: 20 },
  judge(trial, limits) {
    const { forces, events } = trial;
    if (!trial.onset.ok) return notJudged('%', 'no-onset');
    const start = firstSample(trial.onset.value.index);
    const { end } = events;
    if (start > end) return notJudged('%', 'too-short');
    const judged = { start, end: end + 1 };
    if (hasOpenGap(trial, judged)) return notJudged('%', 'gap', judged);
    const range = events.peak.force - events.quietLevel;
    if (!(range > 0)) return notJudged('%', 'no-effort', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('%', 'no-body-weight', judged);
    const { depth, left, lowest, right } = deepestValley(forces.total, start, end);
    const marks = [
      { at: left, force: forces.total[left] as number, label: 'before the fall' },
      { at: lowest, force: forces.total[lowest] as number, label: 'lowest' },
      { at: right, force: forces.total[right] as number, label: 'after it' },
    ];
    return judgeAbove((100 * depth) / range, levels, '%', judged, depth > 0 ? marks : []);
  },
};

/**
 * The deepest valley of samples start ... end (both included): how far its lowest sample lies below the lower one of the highest
 * samples before and after it. Depth 0 for a piece that only rises, only falls, or does one after the other.
 */
function deepestValley(force: Float64Array, start: number, end: number) {
  // From both ends inward, always on the side whose highest sample so far is the lower one: that one decides the depth there.
  let from = start;
  let to = end;
  let left = start;
  let right = end;
  let highLeft = force[left] as number;
  let highRight = force[right] as number;
  let depth = 0;
  let best = { left: start, lowest: start, right: end };
  while (from <= to) {
    const onLeft = highLeft <= highRight;
    const at = onLeft ? from++ : to--;
    const here = force[at] as number;
    const below = (onLeft ? highLeft : highRight) - here;
    if (below > depth) {
      depth = below;
      best = { left, lowest: at, right };
    } else if (below < 0 && onLeft) {
      left = at;
      highLeft = here;
    } else if (below < 0) {
      right = at;
      highRight = here;
    }
  }
  return { depth, ...best };
}
