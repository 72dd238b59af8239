import type { Estimate } from '../interval.ts';

/** A line between two methods that both err: y = intercept + slope x. */
export interface MethodLine {
  readonly n: number;
  readonly slope: Estimate;
  readonly intercept: Estimate;
}

/** What a line says of two methods: fixed bias where the intercept's interval leaves out 0, proportional where the slope's leaves out 1. */
export const biasOf = ({ slope, intercept }: MethodLine) => ({
  fixed: intercept.low > digits || intercept.high < -digits,
  proportional: slope.low > 1 + digits || slope.high < 1 - digits,
});

/** A limit that is just 0 or 1 in decimals may be a little more or less in binary. */
const digits = 1e-9;
