import { samplesIn, trailingMean } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { firstSample, hasOpenGap, judgeBelow, levelsOf, notJudged, riseReaches, weightOf } from '../judging.ts';

/** Does the rise begin with a step and a halt? */
export const steppedStart: CheckDefinition = {
  id: 'stepped_start',
  version: 1,
  title: 'No halting start',
  finding: 'A halt at the start',
  why: 'A take-up of slack or a first tug followed by a halt puts the onset before the pull proper: early forces and rates then measure the halt.',
  definition:
    'Smallest rise of the trailing 20 ms mean of F over any 100 ms between the onset and the first index from r on with F >= B + 80 % of (F_p - B), as a share of F_p - Q. Warn below 5 %, fail below 1 %. Not judged when that stretch is shorter than 100 ms.',
  source: 'Definition and limits are proposals of this program',
  unit: '%',
  scope: 'rates',
  bound: 'least',
  defaultLimits: { warn: 5, fail: 1 },
  judge(trial, limits) {
    const { forces, events } = trial;
    if (!events.baseline.ok) return notJudged('%', 'no-baseline');
    if (!trial.onset.ok) return notJudged('%', 'no-onset');
    const start = firstSample(trial.onset.value.index);
    const reached = riseReaches(trial, events.baseline.value.mean, 0.8, start);
    const step = samplesIn(0.1, forces.sampleRate);
    const width = samplesIn(0.02, forces.sampleRate);
    if (reached === undefined || reached - start < step || start - width + 1 < 0 || width < 1 || step < 1) {
      return notJudged('%', 'too-short');
    }
    const judged = { start, end: reached + 1 };
    // The first trailing mean reaches back before the onset.
    if (hasOpenGap(trial, { start: start - width + 1, end: judged.end })) return notJudged('%', 'gap', judged);
    const range = events.peak.force - events.quietLevel;
    if (!(range > 0)) return notJudged('%', 'no-effort', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('%', 'no-body-weight', judged);
    const means = trailingMean(forces.total, width, start, reached + 1);
    let at = 0;
    let smallest = Number.POSITIVE_INFINITY;
    for (let i = 0; i + step < means.length; i++) {
      const rise = (means[i + step] as number) - (means[i] as number);
      if (rise < smallest) {
        smallest = rise;
        at = i;
      }
    }
    return judgeBelow((100 * smallest) / range, levels, '%', judged, [
      { at: start + at, force: means[at] as number, label: 'slowest 100 ms, start' },
      { at: start + at + step, force: means[at + step] as number, label: 'slowest 100 ms, end' },
    ]);
  },
};
