import { baselineUnrest, standingSearch } from '../analysis/effort-search.ts';
import type { TrialContext } from '../analysis/trial-context.ts';
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

/**
 * The same from the standing before the pull: whole seconds backward from the end of the baseline for as long as each is quiet (SD and
 * distance from the baseline's mean at most 5 % of it), at most ten.
 */
export function weightFromStanding({ events, forces }: TrialContext): WeightSource | undefined {
  if (!events.baseline.ok) return undefined;
  const { end, mean } = events.baseline.value;
  const width = Math.max(2, samplesIn(second, forces.sampleRate));
  const means: number[] = [];
  for (let to = end; to - width >= events.span.start && means.length < standingSearch; to -= width) {
    const from = to - width;
    if (touchesGap(forces, from, to - 1)) break;
    const here = meanOf(forces.total, from, to);
    const allowed = baselineUnrest * mean;
    if (sdOf(forces.total, from, to) > allowed || Math.abs(here - mean) > allowed) break;
    means.push(here);
  }
  return weightFromMeans(means, 'standing-before');
}
