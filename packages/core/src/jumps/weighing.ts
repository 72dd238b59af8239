import { have, lack, type Outcome } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { lineThrough, meanOf, samplesIn, sdOf, touchesGap } from '../signal/index.ts';
import type { WeighingWindow } from './events.ts';
import type { WeighingRule } from './method/jump-method.ts';
import { leastStanding, type QuietSearch, quietWindows, standingUnrest } from './quiet.ts';

/**
 * The quiet second before a jump.
 *
 * With a cue: the window that ends at it, where somebody stands still in it (nobody does who jumped before the cue). Else, among the windows of at most 10 s before take-off with a mean of 100 N or more and
 * an SD of 5 % of it or less: with s* the smallest SD, the latest window with an SD of at most max(2 s*, 0.5 % of its mean), moved
 * back by the clearance but not before the first of them. (The quietest second of a sway is its crest; the latest quiet one is what
 * the athlete jumped from.)
 *
 * @param before the window ends at or before this sample
 * @param search how quiet windows are looked for, where several searches share their work
 * @returns `no-quiet-window` when nobody stands still there
 * Source: one second that ends at the signal: Owen et al. 2014, J Strength Cond Res 28(6):1552-1558. Without a signal the choice is
 * this program's.
 */
export function weighBefore(
  forces: Forces,
  span: SampleSpan,
  before: number,
  cue: number | undefined,
  rule: WeighingRule,
  search: QuietSearch = (from, until, width) => quietWindows(forces, from, until, width),
): Outcome<WeighingWindow> {
  const { sampleRate } = forces;
  const width = windowOf(rule, sampleRate);
  if (cue !== undefined) {
    const end = Math.floor(cue);
    const start = end - width;
    if (start >= span.start && end <= before && isStanding(forces, start, end))
      return have(windowAt(forces, start, end, 'before', 'cue'));
  }
  const from = Math.max(span.start, Math.ceil(before - rule.search * sampleRate));
  const quiet = search(from, before, width);
  if (quiet === undefined) return lack('no-quiet-window');
  const { latest, earliest } = quiet;
  const start = Math.max(latest - samplesIn(rule.clearance, sampleRate), earliest);
  if (touchesGap(forces, start, start + width - 1)) return lack('gap-in-interval');
  return have(windowAt(forces, start, start + width, 'before', 'quiet'));
}

/**
 * The quiet second after a landing: by the same limits the first of the windows that end before `until`, moved later by the
 * clearance where there is room.
 *
 * @returns `no-quiet-window` when nobody stands still there
 * Source: standing still after the landing: McMahon et al. 2021, Biomechanics 1(2):178-189. The choice of the window is this program's.
 */
export function weighAfter(
  forces: Forces,
  touchdown: number,
  until: number,
  rule: WeighingRule,
): Outcome<WeighingWindow> {
  const { sampleRate } = forces;
  const width = windowOf(rule, sampleRate);
  const end = Math.min(until, Math.floor(touchdown + (rule.search + rule.window) * sampleRate));
  const quiet = quietWindows(forces, touchdown, end, width);
  if (quiet === undefined) return lack('no-quiet-window');
  const start = Math.min(quiet.first + samplesIn(rule.clearance, sampleRate), quiet.last);
  if (touchesGap(forces, start, start + width - 1)) return lack('gap-in-interval');
  return have(windowAt(forces, start, start + width, 'after', 'quiet'));
}

const windowOf = (rule: WeighingRule, rate: number): number => Math.max(3, samplesIn(rule.window, rate));

function isStanding(forces: Forces, start: number, end: number): boolean {
  if (touchesGap(forces, start, end - 1)) return false;
  const mean = meanOf(forces.total, start, end);
  return mean >= leastStanding && sdOf(forces.total, start, end) <= standingUnrest * mean;
}

/** A window with all that is asked of it. */
export function windowAt(
  { total, sampleRate }: Pick<Forces, 'total' | 'sampleRate'>,
  start: number,
  end: number,
  place: WeighingWindow['place'],
  chosenBy: WeighingWindow['chosenBy'],
): WeighingWindow {
  const middle = Math.floor((start + end) / 2);
  return {
    start,
    end,
    place,
    chosenBy,
    mean: meanOf(total, start, end),
    sd: sdOf(total, start, end),
    slope: lineThrough(total, start, end).slope * sampleRate,
    halves: meanOf(total, middle, end) - meanOf(total, start, middle),
  };
}
