import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { largestMean, meanOf, slidingMean } from '../signal/index.ts';
import { type EffortSearch, isWhole } from './effort-search.ts';

/** The window of sustained effort: a, c and M. */
export interface Anchor {
  /** a: first start of the window with the largest mean. */
  readonly start: number;
  /** c = a + floor(v / 2). */
  readonly middle: number;
  /** M. */
  readonly mean: number;
}

/**
 * Finds the window of v samples with the largest mean; the first of equals. Windows over open gaps are left out.
 *
 * @returns `recording-too-short` when no window fits the span, `gap-in-interval` when each one misses samples
 */
export function findAnchor({ forces, span, anchorWidth }: EffortSearch): Outcome<Anchor> {
  if (span.end - span.start < anchorWidth) return lack('recording-too-short');
  const start =
    forces.gaps.open.length === 0 ? wholeAnywhere(forces, span, anchorWidth) : wholeOnly(forces, span, anchorWidth);
  if (start === undefined) return lack('gap-in-interval');
  // Taken afresh, so that M depends on the window alone and not on where the search began.
  return have({
    start,
    middle: start + Math.floor(anchorWidth / 2),
    mean: meanOf(forces.total, start, start + anchorWidth),
  });
}

const wholeAnywhere = (forces: Forces, span: SampleSpan, width: number): number | undefined =>
  largestMean(forces.total, width, span.start, span.end)?.start;

/** First start of the largest mean among the windows without missing samples. */
function wholeOnly(forces: Forces, span: SampleSpan, width: number): number | undefined {
  const means = slidingMean(forces.total, width, span.start, span.end);
  let start: number | undefined;
  let mean = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < means.length; i++) {
    if ((means[i] as number) > mean && isWhole(forces, span.start + i, width)) {
      mean = means[i] as number;
      start = span.start + i;
    }
  }
  return start;
}
