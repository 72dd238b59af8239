import { have, lack, type Outcome } from '../../outcome.ts';
import { normal } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import { type Component, errorOfRatio } from './strength-index.ts';

/** On which side of a limit a ratio lies. `undecided`: its interval holds the limit. */
export type SideOfLimit = 'over' | 'under' | 'undecided';

/** Interval of a value with a known typical error, and its side of a limit. Without an error nothing is said. */
function judged(value: number, error: number | undefined, limit: number) {
  if (error === undefined) return { side: 'undecided' } as const;
  const half = normal.quantile(upperProbability(usualLevel)) * error;
  const side: SideOfLimit = Math.abs(value - limit) <= half ? 'undecided' : value > limit ? 'over' : 'under';
  return { error, interval: estimate(value, value - half, value + half, usualLevel), side };
}

/** What a countermovement adds to a jump. */
export interface StretchUse {
  /** Eccentric utilisation ratio: countermovement jump over squat jump. */
  readonly ratio: number;
  /** Pre-stretch augmentation, %. */
  readonly augmentation: number;
  /** Countermovement jump less squat jump, in their unit. */
  readonly difference: number;
  readonly countermovement: Component;
  readonly squat: Component;
  /** Typical error of the ratio and its 95 % interval; absent where one is not known. */
  readonly error?: number;
  readonly interval?: Estimate;
  /** Against 1: whether the countermovement adds. */
  readonly side: SideOfLimit;
}

/**
 * What the countermovement adds, from the same value (height or peak power) of both jumps. A dip in the squat jump draws the ratio
 * towards 1: only squat jumps whose dip check passed belong here.
 *
 * @returns `not-positive` when a value is not above zero
 * Source: McGuigan et al. 2006, J Strength Cond Res 20(4):992-995.
 */
export function stretchUse(countermovement: Component, squat: Component): Outcome<StretchUse> {
  if (!(countermovement.value > 0 && squat.value > 0)) return lack('not-positive');
  const ratio = countermovement.value / squat.value;
  return have({
    ratio,
    augmentation: 100 * (ratio - 1),
    difference: countermovement.value - squat.value,
    countermovement,
    squat,
    ...judged(ratio, errorOfRatio(countermovement, squat), 1),
  });
}

/**
 * Bilateral index, %: 100 (both / (left + right) - 1). Negative is a deficit: both legs together give less than the sum of each alone.
 *
 * @returns `not-positive` when the sum of the single legs is not above zero
 * Source: Howard and Enoka 1991, J Appl Physiol 70(1):306-316 (from memory).
 */
export function bilateralIndex(both: number, left: number, right: number): Outcome<number> {
  const sum = left + right;
  return sum > 0 && both > 0 ? have(100 * (both / sum - 1)) : lack('not-positive');
}

/** What both legs together give against the sum of each alone. */
export interface BilateralUse {
  /** Bilateral index, %; negative is a deficit. */
  readonly index: number;
  readonly both: Component;
  readonly left: Component;
  readonly right: Component;
  /** Typical error of the index in per cent and its 95 % interval; absent where one is not known. */
  readonly error?: number;
  readonly interval?: Estimate;
  /** Against 0: `under` is a deficit, `over` a facilitation. */
  readonly side: SideOfLimit;
}

/**
 * Bilateral index with its propagated error. The errors are independent: that of the sum is sqrt(e_left^2 + e_right^2), that of the
 * index 100 times the error of the ratio both / (left + right). Forces are net: body weight would count once in one and twice in the other.
 *
 * @returns `not-positive` when a value is not above zero
 * Source: Howard and Enoka 1991, J Appl Physiol 70(1):306-316 (from memory); first-order propagation, JCGM 100:2008 5.1.2.
 */
export function bilateralUse(both: Component, left: Component, right: Component): Outcome<BilateralUse> {
  const index =
    left.value > 0 && right.value > 0 ? bilateralIndex(both.value, left.value, right.value) : lack('not-positive');
  if (!index.ok) return index;
  const sum: Component = {
    value: left.value + right.value,
    ...(left.error === undefined || right.error === undefined ? {} : { error: Math.hypot(left.error, right.error) }),
  };
  const error = errorOfRatio(both, sum);
  return have({ index: index.value, both, left, right, ...judged(index.value, error && 100 * error, 0) });
}
