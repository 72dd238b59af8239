import type { PlateForce } from '../../recording/forces.ts';
import type { SampleSpan } from '../../recording/sample.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeAbove, type Limits, levelsOf, notJudged, pullStart, weightOf } from '../judging.ts';

/** A plate that is not pressed by more than this cannot be at its upper limit; it idles at some constant value. */
const idle = 20;

interface Clipped {
  readonly count: number;
  readonly at: number;
  readonly force: number;
}

/** Samples of a plate that lie at a limit of its channel inside a span, and the first of them. */
function clippedSamples(plate: PlateForce, span: SampleSpan, run: number, share: number): Clipped {
  if (!plate.range) {
    // The limit is not known: the largest value the channel ever gave may be it.
    const largest = largestOf(plate.force);
    return largest > idle ? atLeast(plate.force, span, largest, run) : { count: 0, at: 0, force: 0 };
  }
  const [low, high] = plate.range;
  const above = atLeast(plate.force, span, share * high, 1);
  // An unloaded plate rests at a lower limit of zero; only a limit below zero can cut off force.
  if (above.count > 0 || !(low < 0)) return above;
  return atMost(plate.force, span, low, run);
}

function largestOf(samples: Float64Array): number {
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < samples.length; i++) if ((samples[i] as number) > largest) largest = samples[i] as number;
  return largest;
}

const atLeast = (samples: Float64Array, span: SampleSpan, level: number, run: number): Clipped =>
  runs(samples, span, level, 1, run);

const atMost = (samples: Float64Array, span: SampleSpan, level: number, run: number): Clipped =>
  runs(samples, span, -level, -1, run);

/** Samples in runs of at least `shortest` with sign * sample >= level. */
function runs(samples: Float64Array, span: SampleSpan, level: number, sign: 1 | -1, shortest: number): Clipped {
  let count = 0;
  let first = -1;
  let run = 0;
  for (let i = span.start; i < span.end; i++) {
    if (sign * (samples[i] as number) < level) {
      run = 0;
      continue;
    }
    run++;
    if (run === shortest) {
      count += run;
      if (first < 0) first = i - run + 1;
    } else if (run > shortest) count++;
  }
  return count === 0 ? { count, at: 0, force: 0 } : { count, at: first, force: samples[first] as number };
}

const shortestRun = (limits: Limits): number => limits.run ?? 3;
const rangeShare = (limits: Limits): number => limits.shareOfRange ?? 0.995;

/** Did a plate reach the end of its range? */
export const clipping: CheckDefinition = {
  id: 'clipping',
  version: 1,
  title: 'Within plate range',
  finding: 'A plate reached its limit',
  why: 'A plate that reaches the end of its range goes on giving that value: the peak is cut off and looks like a plateau.',
  definition:
    'Number of samples, per plate and before any filter, between the start of the baseline and e, that lie at a limit. Where the range is known: any sample at or above 99.5 % of it, or 3 or more in a row at a lower limit below zero. Where it is not known: 3 or more samples in a row exactly equal to the largest value the channel gives in the whole recording, when that is above 20. Fail from the first.',
  source: 'Definition and limits are proposals of this program',
  unit: '1',
  scope: 'trial',
  defaultLimits: { fail: 0, shareOfRange: 0.995, run: 3 },
  judge(trial, limits) {
    const { unfiltered, events } = trial;
    const judged = { start: pullStart(trial), end: events.end + 1 };
    // Inside a gap the samples repeat the last value, which would look like a limit.
    if (hasOpenGap(trial, judged)) return notJudged('1', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('1', 'no-body-weight', judged);
    let count = 0;
    const marks: { at: number; force: number; label: string }[] = [];
    for (const plate of unfiltered.plates) {
      const clipped = clippedSamples(plate, judged, shortestRun(limits), rangeShare(limits));
      if (clipped.count === 0) continue;
      count += clipped.count;
      marks.push({ at: clipped.at, force: clipped.force, label: plate.name });
    }
    return judgeAbove(count, levels, '1', judged, marks);
  },
};
