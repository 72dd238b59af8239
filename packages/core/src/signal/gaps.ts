import type { Forces } from '../recording/forces.ts';
import type { SampleIndex, SampleSpan } from '../recording/sample.ts';

/**
 * True when the closed interval of sample positions [start, end] needs a sample of one of the gaps. Fractional ends need
 * both samples around them.
 */
export function touchesSpan(gaps: readonly SampleSpan[], start: SampleIndex, end: SampleIndex): boolean {
  const low = Math.floor(start);
  const high = Math.ceil(end);
  for (const gap of gaps) if (gap.start <= high && gap.end > low) return true;
  return false;
}

/** True when [start, end] (positions, both included) needs a sample of a gap that was not filled: `gap-in-interval`. */
export const touchesGap = (forces: Forces, start: SampleIndex, end: SampleIndex): boolean =>
  forces.gaps.open.length > 0 && touchesSpan(forces.gaps.open, start, end);
