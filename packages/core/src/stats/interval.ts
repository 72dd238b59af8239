/** A value with its confidence interval; the two limits belong to `level`, 0 to 1. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly level: number;
}

/** How sure an interval is to be where nobody says otherwise. */
export const usualLevel = 0.95;

/** An estimate whose limits are in order, whichever of them came first. */
export const estimate = (value: number, one: number, other: number, level: number): Estimate => ({
  value,
  low: Math.min(one, other),
  high: Math.max(one, other),
  level,
});

/** Probability below the upper limit of a two-sided interval. */
export const upperProbability = (level: number): number => 1 - (1 - level) / 2;
