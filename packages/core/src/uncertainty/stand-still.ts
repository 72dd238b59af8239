import { baselineUnrest, standingSearch } from '../analysis/effort-search.ts';
import type { TrialContext } from '../analysis/trial-context.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { meanOf, type Samples, samplesIn, sdOf, touchesGap } from '../signal/index.ts';
import type { WeightSource } from './sources.ts';

/** Length of the successive means, s. */
const second = 1;

/** Means of successive whole seconds from the start; what is left at the end is not used. */
export function secondMeans(force: Samples, sampleRate: number): number[] {
  const width = Math.max(1, samplesIn(second, sampleRate));
  return Array.from({ length: Math.floor(force.length / width) }, (_, i) => meanOf(force, i * width, (i + 1) * width));
}

/**
 * Standard uncertainty of a body weight from the means of successive seconds of the stand-still: their SD.
 *
 * It is not divided by the root of their number: breathing makes neighbouring seconds depend on each other, and there are only a few.
 *
 * @returns undefined for fewer than two seconds
 */
export const weightFromMeans = (means: readonly number[], of: WeightSource['of']): WeightSource | undefined =>
  means.length < 2 ? undefined : { standard: sdOf(means), seconds: means.length, of };

/** A level somebody stands at: W or the mean of a baseline, N, and how far a second may scatter and lie from it, N. */
interface Level {
  readonly mean: number;
  readonly allowed: number;
}

/**
 * Means of whole seconds one after the other for as long as each is quiet and lies inside a span, at most ten.
 *
 * @param from where the first one begins; going backward, where it ends
 */
export function quietSeconds(
  forces: Forces,
  within: SampleSpan,
  { mean, allowed }: Level,
  from: number,
  way: 'backward' | 'forward',
): number[] {
  const width = Math.max(2, samplesIn(second, forces.sampleRate));
  const means: number[] = [];
  while (means.length < standingSearch) {
    const start = way === 'backward' ? from - (means.length + 1) * width : from + means.length * width;
    const end = start + width;
    if (start < within.start || end > within.end || touchesGap(forces, start, end - 1)) break;
    const here = meanOf(forces.total, start, end);
    if (sdOf(forces.total, start, end) > allowed || Math.abs(here - mean) > allowed) break;
    means.push(here);
  }
  return means;
}

/**
 * The same from the standing before the pull: whole seconds backward from the end of the baseline for as long as each is quiet (SD and
 * distance from the baseline's mean at most 5 % of it), at most ten.
 */
export function weightFromStanding({ events, forces }: TrialContext): WeightSource | undefined {
  if (!events.baseline.ok) return undefined;
  const { end, mean } = events.baseline.value;
  const level = { mean, allowed: baselineUnrest * mean };
  return weightFromMeans(quietSeconds(forces, events.span, level, end, 'backward'), 'standing-before');
}
