import type { Stretch } from './envelope.ts';
import { Pyramid } from './pyramid.ts';
import type { Ink } from './scene.ts';

/** One drawn line. */
export interface Series {
  readonly id: string;
  /** As it is read aloud and written in the legend. */
  readonly name: string;
  /** Stands at the line's end. */
  readonly letter: string;
  readonly ink: Ink;
  readonly dash?: readonly number[];
  readonly width: number;
  readonly pyramid: Pyramid;
  readonly rate: number;
  /** Instant of sample 0 on the drawn time axis, s. */
  readonly start: number;
  /** Stretches without samples; the line is broken there. */
  readonly breaks: readonly Stretch[];
}

/** Positions of all evidence are samples of the trial's own recording; they may be fractional. */
export interface Band {
  readonly start: number;
  readonly end: number;
  readonly ink: Ink;
  readonly label?: string;
  readonly labelInk?: Ink;
}

export interface Vertical {
  readonly at: number;
  readonly ink: Ink;
  readonly label: string;
  readonly dash?: readonly number[];
  readonly width?: number;
  readonly priority: number;
  /** Side of the line on which its label stands first. */
  readonly side?: 'left' | 'right';
}

export interface Point {
  readonly at: number;
  readonly force: number;
  readonly ink: Ink;
  readonly label?: string;
  readonly priority?: number;
  readonly place?: 'above' | 'right';
  readonly radius?: number;
}

/** A horizontal line at one force over a stretch. */
export interface Level {
  readonly start: number;
  readonly end: number;
  readonly force: number;
  readonly ink: Ink;
  readonly label?: string;
}

export interface Evidence {
  readonly bands: readonly Band[];
  readonly verticals: readonly Vertical[];
  readonly points: readonly Point[];
  readonly levels: readonly Level[];
}

export const noEvidence: Evidence = { bands: [], verticals: [], points: [], levels: [] };

/** Signed share of right and left over time, 100 (R - L) / (R + L); NaN where the plates are not loaded. */
export interface Balance {
  readonly pyramid: Pyramid;
  readonly breaks: readonly Stretch[];
  /** Half height of the strip, %. */
  readonly limit: number;
}

/** All that a curve is drawn from. */
export interface CurveModel {
  readonly rate: number;
  readonly samples: number;
  /** Instant of sample 0 on the drawn axis, s; not 0 when the axis counts from the onset. */
  readonly start: number;
  readonly unit: string;
  readonly timeTitle: string;
  readonly forceTitle: string;
  /** The first one is the trial's total force. */
  readonly series: readonly Series[];
  readonly gaps: { readonly filled: readonly Stretch[]; readonly open: readonly Stretch[] };
  readonly evidence: Evidence;
  readonly balance?: Balance;
  /** Words of a gap's label, from its length in milliseconds. */
  readonly gapWords: (milliseconds: number) => string;
}

export const instantOf = (model: CurveModel, sample: number): number => model.start + sample / model.rate;
export const sampleOf = (model: CurveModel, instant: number): number => (instant - model.start) * model.rate;

/** The nearest whole sample inside the recording. */
export function nearestSample(model: CurveModel, instant: number): number {
  return Math.min(model.samples - 1, Math.max(0, Math.floor(sampleOf(model, instant) + 0.5)));
}

/** The stretch of axis the trial's own recording covers. */
export const wholeOf = (model: CurveModel) => ({ from: model.start, to: instantOf(model, model.samples - 1) });

/** Force at or above which both plates count as loaded and a share of the sides means something, N. */
export const loadedFrom = 100;

/**
 * The balance of left and right at each sample, 100 (R - L) / (R + L), where R + L is at least `loadedFrom`.
 *
 * @param breaks stretches without samples; nothing is drawn there either
 * @param judged the stretch whose largest size sets the scale (the effort)
 */
export function balanceOf(
  left: Float64Array,
  right: Float64Array,
  breaks: readonly Stretch[],
  judged: Stretch,
): Balance {
  const share = new Float64Array(left.length);
  const unloaded: Stretch[] = [];
  let open = -1;
  let largest = 0;
  for (let i = 0; i < share.length; i++) {
    const l = left[i] as number;
    const r = right[i] as number;
    const sum = l + r;
    const loaded = sum >= loadedFrom;
    share[i] = loaded ? (100 * (r - l)) / sum : Number.NaN;
    if (loaded && i >= judged.start && i < judged.end) largest = Math.max(largest, Math.abs(share[i] as number));
    if (!loaded && open < 0) open = i;
    if (loaded && open >= 0) {
      unloaded.push({ start: open, end: i });
      open = -1;
    }
  }
  if (open >= 0) unloaded.push({ start: open, end: share.length });
  const limit = [5, 10, 20, 50].find((step) => largest <= step) ?? 100;
  return { pyramid: new Pyramid(share), breaks: joinedBreaks(unloaded, breaks), limit };
}

/** Union of two sorted lists of stretches, sorted and disjoint. */
export function joinedBreaks(a: readonly Stretch[], b: readonly Stretch[]): Stretch[] {
  const all = [...a, ...b].sort((x, y) => x.start - y.start);
  const joined: Stretch[] = [];
  for (const one of all) {
    const last = joined.at(-1);
    if (last && one.start <= last.end)
      joined[joined.length - 1] = { start: last.start, end: Math.max(last.end, one.end) };
    else joined.push(one);
  }
  return joined;
}
