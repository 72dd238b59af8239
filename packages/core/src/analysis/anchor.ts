import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import { meanOf, slidingMean } from '../signal/index.ts';
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
  const means = slidingMean(forces.total, anchorWidth, span.start, span.end);
  if (means.length === 0) return lack('recording-too-short');
  const gaps = forces.gaps.open.length > 0;
  let best = -1;
  let mean = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < means.length; i++) {
    const value = means[i] as number;
    if (value > mean && (!gaps || isWhole(forces, span.start + i, anchorWidth))) {
      mean = value;
      best = i;
    }
  }
  if (best < 0) return lack('gap-in-interval');
  const start = span.start + best;
  // Taken afresh, so that M depends on the window alone and not on where the search began.
  return have({
    start,
    middle: start + Math.floor(anchorWidth / 2),
    mean: meanOf(forces.total, start, start + anchorWidth),
  });
}
