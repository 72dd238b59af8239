import { have, lack, type Outcome } from '../../outcome.ts';
import { type Component, errorOfRatio } from './strength-index.ts';

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
  /** Typical error of the ratio; absent where one is not known. */
  readonly error?: number;
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
  const error = errorOfRatio(countermovement, squat);
  return have({
    ratio,
    augmentation: 100 * (ratio - 1),
    difference: countermovement.value - squat.value,
    countermovement,
    squat,
    ...(error === undefined ? {} : { error }),
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
