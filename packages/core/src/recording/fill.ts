import type { SampleSpan } from './sample.ts';

/** Longest gap that is filled, seconds. */
export const longestFilledGap = 0.005;

/**
 * Makes an array with missing samples finite, in place.
 *
 * Gaps of up to 5 ms between two received samples are filled linearly; longer ones, and those at either end of the
 * recording, stay open and hold the last value before them (the first after them at the start; 0 when nothing was received).
 *
 * @param missing sorted, disjoint spans of missing samples
 */
export function fillGaps(
  values: Float64Array,
  missing: readonly SampleSpan[],
  sampleRate: number,
): { filled: SampleSpan[]; open: SampleSpan[] } {
  // The small excess keeps five samples at 1 kHz inside, whatever the rounding of 5 / 1000.
  const longest = longestFilledGap * sampleRate + 1e-9;
  const filled: SampleSpan[] = [];
  const open: SampleSpan[] = [];
  for (const { start, end } of missing) {
    const before = start > 0 ? (values[start - 1] as number) : undefined;
    const after = end < values.length ? (values[end] as number) : undefined;
    if (before !== undefined && after !== undefined && end - start <= longest) {
      const step = (after - before) / (end - start + 1);
      for (let i = start; i < end; i++) values[i] = before + step * (i - start + 1);
      filled.push({ start, end });
    } else {
      values.fill(before ?? after ?? 0, start, end);
      open.push({ start, end });
    }
  }
  return { filled, open };
}
