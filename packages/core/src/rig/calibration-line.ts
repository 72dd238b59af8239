import { have, lack, type Outcome } from '../outcome.ts';
import { meanOf } from '../signal/index.ts';

/** The straight line y = slope F + offset through what a plate showed under known forces. */
export interface CalibrationLine {
  readonly n: number;
  readonly slope: number;
  /** N. */
  readonly offset: number;
  /** y_i less the line, N, in the order of the points. */
  readonly residuals: readonly number[];
  /** Largest absolute residual, N. */
  readonly largestResidual: number;
  /** Standard error of the fit, N: sqrt(sum of squared residuals / (n - 2)); 0 with two points. */
  readonly standardError: number;
  /** Standard error of the slope. */
  readonly slopeError: number;
}

/**
 * Ordinary least squares of readings on true forces; the forces are taken without error.
 *
 * @param forces true forces, N
 * @param readings what was shown, N, one for each force
 * @returns `too-few-values` under two points, `no-spread` where all forces are equal
 */
export function calibrationLine(forces: readonly number[], readings: readonly number[]): Outcome<CalibrationLine> {
  const n = forces.length;
  if (readings.length !== n) throw new RangeError('There is one reading for each force.');
  if (n < 2) return lack('too-few-values');
  const [meanForce, meanReading] = [meanOf(forces), meanOf(readings)];
  let [spread, together] = [0, 0];
  for (let i = 0; i < n; i++) {
    const d = (forces[i] as number) - meanForce;
    spread += d * d;
    together += d * ((readings[i] as number) - meanReading);
  }
  if (spread === 0) return lack('no-spread');
  const slope = together / spread;
  const residuals = readings.map((y, i) => y - meanReading - slope * ((forces[i] as number) - meanForce));
  const squares = residuals.reduce((sum, r) => sum + r * r, 0);
  const standardError = n > 2 ? Math.sqrt(squares / (n - 2)) : 0;
  return have({
    ...{ n, slope, offset: meanReading - slope * meanForce, residuals },
    largestResidual: Math.max(...residuals.map(Math.abs)),
    ...{ standardError, slopeError: standardError / Math.sqrt(spread) },
  });
}

/** The line through zero, y = slope F: slope = sum F y / sum F^2, and its largest absolute residual, N. */
export function lineThroughZero(
  forces: readonly number[],
  readings: readonly number[],
): Outcome<{ readonly slope: number; readonly largestResidual: number }> {
  let [squares, together] = [0, 0];
  for (let i = 0; i < forces.length; i++) {
    squares += (forces[i] as number) ** 2;
    together += (forces[i] as number) * (readings[i] as number);
  }
  if (squares === 0) return lack('no-spread');
  const slope = together / squares;
  const largestResidual = Math.max(...readings.map((y, i) => Math.abs(y - slope * (forces[i] as number))));
  return have({ slope, largestResidual });
}
