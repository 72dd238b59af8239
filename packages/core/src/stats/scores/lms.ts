/** Parameters of a reference at one age: power, median, coefficient of variation. */
export interface Lms {
  readonly l: number;
  readonly m: number;
  readonly s: number;
}

/**
 * z of x > 0 in a reference given by LMS: ((x/M)^L - 1) / (L S), ln(x/M) / S for L = 0.
 *
 * Source: Cole & Green 1992, Stat Med 11:1305-1319 (from memory).
 */
export const lmsZ = (x: number, { l, m, s }: Lms): number =>
  l === 0 ? Math.log(x / m) / s : ((x / m) ** l - 1) / (l * s);

/** The value that stands at z: M (1 + L S z)^(1/L); NaN where no value does. */
export const lmsValue = (z: number, { l, m, s }: Lms): number =>
  l === 0 ? m * Math.exp(s * z) : m * (1 + l * s * z) ** (1 / l);
