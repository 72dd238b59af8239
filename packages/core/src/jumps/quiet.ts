import type { Forces } from '../recording/forces.ts';
import { slidingStatistics, touchesGap } from '../signal/index.ts';

/** Force under which nobody stands on the plates, N. */
export const leastStanding = 100;
/** Largest SD of a window in which somebody may stand, share of its mean. */
export const standingUnrest = 0.05;

/** Windows in which somebody stands still, by their first sample. */
export interface Quiet {
  /** First standing window of all. */
  readonly earliest: number;
  /** First and last window that is as quiet as the quietest allows. */
  readonly first: number;
  readonly latest: number;
  /** Last standing window of all. */
  readonly last: number;
}

/**
 * The windows of `width` samples inside [from, until) in which somebody stands, and those as quiet as the quietest of them allows: an SD
 * of at most max(2 s*, 0.5 % of the mean), s* the smallest.
 *
 * @returns undefined where nobody stands
 */
export function quietWindows(forces: Forces, from: number, until: number, width: number): Quiet | undefined {
  const start = Math.max(0, from);
  const end = Math.min(forces.sampleCount, until);
  if (end - start < width) return undefined;
  const { mean, sd } = slidingStatistics(forces.total, width, start, end);
  const stands = (i: number): boolean =>
    (mean[i] as number) >= leastStanding &&
    (sd[i] as number) <= standingUnrest * (mean[i] as number) &&
    !touchesGap(forces, start + i, start + i + width - 1);
  let quietest = Number.POSITIVE_INFINITY;
  let earliest = -1;
  let last = -1;
  for (let i = 0; i < mean.length; i++) {
    if (!stands(i)) continue;
    if (earliest < 0) earliest = i;
    last = i;
    if ((sd[i] as number) < quietest) quietest = sd[i] as number;
  }
  if (earliest < 0) return undefined;
  const quiet = (i: number): boolean =>
    stands(i) && (sd[i] as number) <= Math.max(2 * quietest, 0.005 * (mean[i] as number));
  let first = earliest;
  while (first < last && !quiet(first)) first++;
  let latest = last;
  while (latest > earliest && !quiet(latest)) latest--;
  return { earliest: start + earliest, first: start + first, latest: start + latest, last: start + last };
}

/** How quiet windows are looked for; see `quietWindows`. */
export type QuietSearch = (from: number, until: number, width: number) => Quiet | undefined;

/**
 * A search that gives what `quietWindows` gives, but looks once as far as any will, and again only where an end lies before the last
 * window in which somebody stands: all others find the same windows.
 *
 * @param furthest no search is expected to end later
 */
export function quietSearch(forces: Forces, furthest: number): QuietSearch {
  const widest = new Map<string, Quiet | undefined>();
  return (from, until, width) => {
    if (until > furthest) return quietWindows(forces, from, until, width);
    const key = `${from}/${width}`;
    if (!widest.has(key)) widest.set(key, quietWindows(forces, from, furthest, width));
    const all = widest.get(key);
    return all === undefined || all.last + width <= until ? all : quietWindows(forces, from, until, width);
  };
}
