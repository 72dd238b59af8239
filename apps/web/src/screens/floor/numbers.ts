import type { RigFloor } from '@sthene/contract';
import type { Now } from '../../live/index.ts';
import { numberText, signedText } from '../../number/format.ts';
import { liveWords } from '../../words/live.ts';

/** Minutes and seconds of a count. */
export function clockText(seconds: number): string {
  const whole = Math.max(0, Math.ceil(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/**
 * How forces are written on a screen others can see. `total`: as measured. `above`: total minus body weight. `hidden`: while someone is
 * being weighed, and the number would be the weight.
 */
export interface ForceView {
  readonly mode: 'total' | 'above' | 'hidden';
  /** Taken off every force before it is shown, N. */
  readonly less: number;
}

/** @param allowed whether body weight may be seen on this screen */
export function forceView(floor: RigFloor | undefined, allowed: boolean): ForceView {
  const weight = floor?.weighing?.bodyWeight;
  // What the station keeps to itself no switch can show.
  if (floor?.forces === 'hidden') return { mode: 'hidden', less: 0 };
  if (floor?.forces === 'above') return { mode: 'above', less: 0 };
  if (allowed) return { mode: 'total', less: 0 };
  if (weight !== undefined) return { mode: 'above', less: weight };
  // Whoever stands on the plates now stands there with the whole weight. Tests without weighing have no such phase.
  const weighed = floor === undefined || ['waiting', 'zero', 'stand-still'].includes(floor.phase);
  return { mode: weighed ? 'hidden' : 'total', less: 0 };
}

/** How far under standing a force is still told, N; the axis ends there too. The station tells no more of a hidden weight. */
const offBy = 150;

/** A force in words of that view; undefined where it must not be told. */
export function forceText(value: number | undefined, { mode, less }: ForceView): string | undefined {
  if (value === undefined || mode === 'hidden') return undefined;
  // Off the plates, what is missing to zero would be the weight.
  if (mode === 'above' && value - less < -offBy) return undefined;
  const shown = numberText(value - less, 0);
  return mode === 'above' ? liveWords.values.above(shown) : liveWords.values.total(shown);
}

/** The same in short, for places beside the curve, whose axis says what is meant. */
export function shortForce(value: number | undefined, view: ForceView): string | undefined {
  if (value === undefined || forceText(value, view) === undefined) return undefined;
  const text = view.mode === 'above' ? signedText(value - view.less, 0) : numberText(value, 0);
  return liveWords.values.total(text);
}

/** The axis of the curve: round ends, fixed for the turn. Above standing it begins a little under zero, for a dip. */
export function axisOf(floor: RigFloor | undefined, { mode, less }: ForceView): readonly [number, number] {
  const { low, high } = floor?.scale ?? { low: 0, high: 3000 };
  if (mode !== 'above') return [Math.min(0, low), high];
  return [-offBy, Math.max(500, Math.ceil((high - less) / 500) * 500)];
}

/** An axis that also holds a force beyond its end, in whole steps. */
export function reaching([low, high]: readonly [number, number], force: number): readonly [number, number] {
  return [low, force > high ? Math.ceil((1.05 * force) / 500) * 500 : high];
}

/** Signed share of right over left, %; undefined with too little on the plates to mean anything. */
export function balanceOf(now: Pick<Now, 'left' | 'right' | 'shareRight'> | undefined): number | undefined {
  if (now === undefined) return undefined;
  const { left, right, shareRight } = now;
  // Where the sides are not told, their share is.
  if (left === undefined || right === undefined) return shareRight === undefined ? undefined : 2 * shareRight - 100;
  return left + right < 100 ? undefined : (100 * (right - left)) / (left + right);
}
