import { have, lack, type Outcome } from '../../outcome.ts';
import { normal } from '../distributions/index.ts';
import { type Estimate, estimate } from '../interval.ts';

/** One side of a ratio: a value and its typical error, both in the same unit. */
export interface Component {
  readonly value: number;
  /** Typical error of the value; absent where it is not known. */
  readonly error?: number;
}

/** Where a dynamic strength index lies. `undecided`: its interval crosses a limit, or the isometric value is not the athlete's usual. */
export type StrengthEmphasis = 'strength' | 'balanced' | 'ballistic' | 'undecided';

/** The limits of the index; the published ones unless a lab has its own. */
export interface StrengthLimits {
  readonly ballisticUnder: number;
  readonly strengthOver: number;
}

/** Limits as applied in PLOS ONE 2025, e0331519. */
export const usualStrengthLimits: StrengthLimits = { ballisticUnder: 0.6, strengthOver: 0.8 };

/** The index with both of its components, which are always shown with it: equal indices hide unequal athletes. */
export interface StrengthIndex {
  readonly value: number;
  readonly jump: Component;
  readonly isometric: Component;
  /** Typical error of the index, and its 95 % interval; absent where an error is not known. */
  readonly error?: number;
  readonly interval?: Estimate;
  readonly emphasis: StrengthEmphasis;
  /** Why it is undecided. */
  readonly because?: 'interval-crosses' | 'isometric-low';
}

/**
 * Dynamic strength index: peak force of the push of a jump over peak force of an isometric pull, both gross or both net.
 *
 * The error is propagated for independent errors, CV^2 = CV_jump^2 + CV_isometric^2. The word is `undecided` when value +- 1.96 errors
 * crosses a limit, or when the isometric value lies more than two of its errors under the athlete's usual one.
 *
 * @param usualIsometric the athlete's usual isometric peak, same unit
 * @returns `not-positive` when a component is not above zero
 * Source: Sheppard, Chapman and Taylor 2011, J Aust Strength Cond 19(2):4-10; limits: PLOS ONE 2025, e0331519; the rule for `undecided`
 * is a proposal of this program.
 */
export function dynamicStrengthIndex(
  jump: Component,
  isometric: Component,
  usualIsometric?: number,
  limits: StrengthLimits = usualStrengthLimits,
): Outcome<StrengthIndex> {
  if (!(jump.value > 0 && isometric.value > 0)) return lack('not-positive');
  const value = jump.value / isometric.value;
  const error = errorOfRatio(jump, isometric);
  const half = error === undefined ? 0 : normal.quantile(0.975) * error;
  const crosses = [limits.ballisticUnder, limits.strengthOver].some(
    (limit) => limit > value - half && limit < value + half,
  );
  const low =
    usualIsometric !== undefined &&
    isometric.error !== undefined &&
    isometric.value < usualIsometric - 2 * isometric.error;
  return have({
    value,
    jump,
    isometric,
    ...(error === undefined ? {} : { error, interval: estimate(value, value - half, value + half, 0.95) }),
    ...(crosses || low
      ? { emphasis: 'undecided', because: crosses ? 'interval-crosses' : 'isometric-low' }
      : { emphasis: emphasisOf(value, limits) }),
  });
}

function emphasisOf(value: number, { ballisticUnder, strengthOver }: StrengthLimits): StrengthEmphasis {
  if (value > strengthOver) return 'strength';
  return value < ballisticUnder ? 'ballistic' : 'balanced';
}

/** Error of a / b for independent errors: (a / b) sqrt((e_a / a)^2 + (e_b / b)^2); undefined where one is not known. */
export function errorOfRatio(a: Component, b: Component): number | undefined {
  if (a.error === undefined || b.error === undefined) return undefined;
  return (a.value / b.value) * Math.hypot(a.error / a.value, b.error / b.value);
}
