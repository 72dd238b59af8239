import type { MeanSquares } from './mean-squares.ts';

/** The quantities Weir derives from an intraclass correlation. */
export interface StandardErrors {
  /** SD of all values, sqrt(SS total / (n k - 1)). */
  readonly sd: number;
  /** S sqrt(1 - ICC); sqrt(MS error) is the preferred one and differs a little. */
  readonly measurement: number;
  /** Of the true score about its estimate: S sqrt(ICC (1 - ICC)). */
  readonly estimate: number;
  /** Of the next observed score: S sqrt(1 - ICC^2). */
  readonly prediction: number;
}

/** Source: Weir 2005, J Strength Cond Res 19:231-240. Undefined parts of a negative ICC are those of zero. */
export function standardErrors({ total }: Pick<MeanSquares, 'total'>, icc: number): StandardErrors {
  const sd = Math.sqrt(total.sum / total.df);
  const r = Math.min(1, Math.max(0, icc));
  return {
    sd,
    measurement: sd * Math.sqrt(1 - r),
    estimate: sd * Math.sqrt(r * (1 - r)),
    prediction: sd * Math.sqrt(1 - r * r),
  };
}

/** The true score one value stands for: mean + ICC (x - mean). */
export const trueScore = (x: number, mean: number, icc: number): number => mean + icc * (x - mean);
