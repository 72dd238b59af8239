import { chiSquare } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import { percentOfLogs } from '../table.ts';

/** A standard deviation from so many degrees of freedom. */
export interface ErrorOfTest {
  readonly value: number;
  readonly df: number;
}

/**
 * Interval of a typical error (or of any SD of normal errors): TE sqrt(df / chi-square quantile).
 *
 * Source: Hopkins 2000, Sports Med 30:1-15.
 */
export function typicalErrorInterval({ value, df }: ErrorOfTest, level = usualLevel): Estimate {
  const p = upperProbability(level);
  return estimate(
    value,
    value * Math.sqrt(df / chiSquare.quantile(p, df)),
    value * Math.sqrt(df / chiSquare.quantile(1 - p, df)),
    level,
  );
}

/** A typical error of 100 ln x, with its limits, as a coefficient of variation in per cent: 100 (exp(TE/100) - 1). */
export const coefficientOfVariation = ({ value, low, high, level }: Estimate): Estimate => ({
  value: percentOfLogs(value),
  low: percentOfLogs(low),
  high: percentOfLogs(high),
  level,
});

/** Several errors of the same test as one: the root of their mean square by degrees of freedom. */
export function pooledError(errors: readonly ErrorOfTest[]): ErrorOfTest {
  const df = errors.reduce((sum, error) => sum + error.df, 0);
  const squares = errors.reduce((sum, error) => sum + error.df * error.value ** 2, 0);
  return { value: Math.sqrt(squares / df), df };
}

/**
 * Smallest difference between two tests that exceeds their error: z sqrt(2) TE, z two-sided normal of the level.
 *
 * Source: Weir 2005, J Strength Cond Res 19:231-240.
 *
 * @param z 1.96 for 95 %, 1.6448536 for 90 %, as published
 */
export const detectableChange = (typicalError: number, z: number): number => z * Math.SQRT2 * typicalError;

/** Published multipliers of the minimal detectable change. */
export const detectableAt = { 95: 1.96, 90: 1.6448536269514722 } as const;

/** A detectable change of 100 ln x as per cent up and down; the two differ. */
export const detectablePercent = (change: number): { readonly up: number; readonly down: number } => ({
  up: percentOfLogs(change),
  down: -percentOfLogs(-change),
});
