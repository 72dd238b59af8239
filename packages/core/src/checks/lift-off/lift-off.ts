import { samplesIn, smallestMean } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { firstSample, hasOpenGap, isWeighted, judgeBelow, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Time over which the force is averaged, so that the noise of single samples does not decide, s. */
const averaged = 0.02;

/** Did a foot leave its plate during the pull? */
export const liftOff: CheckDefinition = {
  id: 'lift_off',
  version: 1,
  title: 'Both feet down',
  finding: 'A foot left its plate',
  why: 'With one foot in the air the pull was made on one leg, and left and right cannot be compared.',
  definition:
    'Smallest 20 ms mean of the force of either side that begins between the onset and e. Fail below 20 N. Judged only in tests on both feet with a plate for each side.',
  source: 'Definition and limit are proposals of this program',
  unit: 'N',
  scope: 'trial',
  bound: 'least',
  defaultLimits: { fail: 20 },
  judge(trial, limits) {
    const { forces, events, protocol } = trial;
    if (!isWeighted(trial) || protocol.limbs !== 'both') return notJudged('N', 'not-for-this-test');
    const { left, right } = forces;
    if (!left || !right) return notJudged('N', 'one-side-only');
    if (!trial.onset.ok) return notJudged('N', 'no-onset');
    const start = firstSample(trial.onset.value.index);
    if (start > events.end) return notJudged('N', 'too-short');
    const width = Math.max(1, samplesIn(averaged, forces.sampleRate));
    // A plate that falls silent ends the effort within a sample: the means that begin up to e see what came of it.
    const judged = { start, end: Math.min(events.end + width, events.span.end) };
    if (hasOpenGap(trial, judged)) return notJudged('N', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('N', 'no-body-weight', judged);
    if (judged.end - judged.start < width) return notJudged('N', 'too-short', judged);
    let smallest = Number.POSITIVE_INFINITY;
    let at = judged.start;
    let label = 'left';
    for (const [name, force] of [
      ['left', left],
      ['right', right],
    ] as const) {
      const lowest = smallestMean(force, width, judged.start, judged.end);
      if (lowest === undefined || lowest.mean >= smallest) continue;
      smallest = lowest.mean;
      at = lowest.start + (width - 1) / 2;
      label = name;
    }
    return judgeBelow(smallest, levels, 'N', judged, [{ at, force: smallest, label }]);
  },
};
