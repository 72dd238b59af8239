import type { SampleSpan } from '../recording/sample.ts';
import { samplesIn } from '../signal/index.ts';
import { type EffortSearch, standingSearch } from './effort-search.ts';
import { type Effort, findEffort } from './find-effort.ts';

/** Time before the half rise that belongs to an effort and is not searched again, s. */
const before = 1;
/** Time after the end that belongs to an effort; a live trial closes then, s. */
export const closesAfterEnd = 0.5;
/** Least height of a further effort, share of the first one's M - Q. */
const leastShare = 0.3;
/** Least time of a further effort above H, s. */
const leastTime = 0.5;

/**
 * Every further effort of a span after its largest one: the search is repeated on what lies before r - 1 s and after e + 0.5 s
 * of those found, in each piece as long as M - Q is at least 30 % of the first effort's and F stays above H for 0.5 s.
 *
 * @returns all efforts in order of time, each with a span of its own: searched again in that span alone it gives the same
 * events to the last digit
 */
export function allEfforts(search: EffortSearch, first: Effort): Effort[] {
  const least = leastShare * (first.anchorMean - first.quietLevel);
  const found: Effort[] = [];
  const sides = (effort: Effort, piece: SampleSpan): void => {
    const { sampleRate } = search.forces;
    found.push({ ...effort, span: ownSpan(search, effort, piece) });
    look({ start: piece.start, end: Math.ceil(effort.halfRise - before * sampleRate) });
    look({ start: Math.floor(effort.end + closesAfterEnd * sampleRate) + 1, end: piece.end });
  };
  const look = (piece: SampleSpan): void => {
    if (piece.end - piece.start < search.anchorWidth) return;
    const outcome = findEffort({ ...search, span: piece });
    if (!outcome.ok) return;
    const effort = outcome.value;
    if (effort.anchorMean - effort.quietLevel < least) return;
    if (effort.end - effort.halfRise - 1 < leastTime * search.forces.sampleRate) return;
    sides(effort, piece);
  };
  sides(first, search.span);
  return found.sort((a, b) => a.anchor - b.anchor);
}

/**
 * The part of the searched piece that an effort needs. It ends 0.5 s after e, and starts before everything that was looked at:
 * 10 s before the anchor for standing, the reach of the baseline before r, and 2 s more for checks that look back.
 */
function ownSpan({ forces, width, anchorWidth, reach }: EffortSearch, effort: Effort, piece: SampleSpan): SampleSpan {
  const { sampleRate } = forces;
  const anchorStart = effort.anchor - Math.floor(anchorWidth / 2);
  const needed = Math.min(anchorStart - standingSearch * sampleRate, effort.halfRise - reach - width);
  const start = Math.max(piece.start, Math.floor(needed - 2 * sampleRate));
  const lastOfAnchor = anchorStart + anchorWidth;
  const end = Math.max(effort.end + samplesIn(closesAfterEnd, sampleRate) + 1, lastOfAnchor);
  return { start, end: Math.min(piece.end, end) };
}
