import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf, sdOf } from '../../signal/index.ts';
import { noncentralTBelow, normal, studentT, whereItIs } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';

/** T = 50 + 10 z. */
export const tScore = (z: number): number => 50 + 10 * z;
/** Standard ten: 5.5 + 2 z, rounded, 1 to 10. */
export const sten = (z: number): number => clamp(Math.round(5.5 + 2 * z), 1, 10);
/** Standard nine: 5 + 2 z, rounded, 1 to 9. */
export const stanine = (z: number): number => clamp(Math.round(5 + 2 * z), 1, 9);

/** Where one value stands in a group of n. */
export interface Standing {
  readonly n: number;
  /** (x - mean) / SD of the group, with the exact interval of the true z of a normal group. */
  readonly z: Estimate;
  readonly t: Estimate;
  /** Share of the group below, %, half of those equal counted (Hazen); undefined under 20 people. */
  readonly percentile: Estimate | undefined;
}

/** Fewer people than this give no percentile (a rule of this product). */
export const fewestForPercentile = 20;

/**
 * z, T and percentile of `x` in a group. The limits of z are the noncentralities for which the observed z sqrt(n) is the upper or
 * lower quantile of noncentral t with n - 1 degrees of freedom; those of the percentile p +- z sqrt(p (1 - p) / n), within 0 to 100.
 *
 * @param limits `quick` takes the limits of z from its standard error in groups of `quickFrom` or more; exact otherwise
 * @returns `too-few-values` under three people, `no-spread` where all are equal
 * Source of the interval of z: Crawford & Garthwaite 2002, Neuropsychologia 40:1196-1208 (from memory).
 */
export function standing(
  x: number,
  group: readonly number[],
  level = usualLevel,
  limits: 'exact' | 'quick' = 'exact',
): Outcome<Standing> {
  const n = group.length;
  if (n < 3) return lack('too-few-values');
  const sd = sdOf(group);
  if (sd === 0) return lack('no-spread');
  const score = (x - meanOf(group)) / sd;
  const z = limits === 'quick' && n >= quickFrom ? quickZInterval(score, n, level) : zInterval(score, n, level);
  return have({
    n,
    z,
    t: { value: tScore(z.value), low: tScore(z.low), high: tScore(z.high), level },
    percentile: n < fewestForPercentile ? undefined : percentileOf(x, group, level),
  });
}

/** From this many people on the quick limits of z lie within 0.014 of the exact ones, for z between -3 and 3. */
export const quickFrom = 30;

/** Standard error of a z score of a normal group of n: sqrt(1/n + z^2 / (2n)). */
export const errorOfZ = (z: number, n: number): number => Math.sqrt(1 / n + (z * z) / (2 * n));

/** Limits z -+ q sqrt(1/n + z^2 / (2n)): a list of hundreds cannot wait for the exact ones, which take milliseconds each. */
export function quickZInterval(z: number, n: number, level = usualLevel): Estimate {
  const half = normal.quantile(upperProbability(level)) * errorOfZ(z, n);
  return estimate(z, z - half, z + half, level);
}

/** Exact limits of a z score of a normal group. */
export function zInterval(z: number, n: number, level = usualLevel): Estimate {
  const p = upperProbability(level);
  const root = Math.sqrt(n);
  const t = z * root;
  // The SD of the noncentrality given t is about sqrt(1 + z^2 / 2); ten of them hold everything.
  const width = 10 * Math.sqrt(1 + (z * z * n) / (2 * (n - 1))) * Math.sqrt(n / (n - 1)) + 2;
  const solve = (target: number) =>
    whereItIs(target, (ncp) => noncentralTBelow(t, n - 1, ncp), t - width, t + width) / root;
  return estimate(z, solve(p), solve(1 - p), level);
}

function percentileOf(x: number, group: readonly number[], level: number): Estimate {
  const n = group.length;
  const p = percentileRank(x, group) / 100;
  const half = normal.quantile(upperProbability(level)) * Math.sqrt((p * (1 - p)) / n);
  return estimate(100 * p, 100 * Math.max(0, p - half), 100 * Math.min(1, p + half), level);
}

/** 100 (number below + half of those equal) / n. */
export function percentileRank(x: number, group: readonly number[]): number {
  const below = group.filter((value) => value < x).length;
  const equal = group.filter((value) => value === x).length;
  return (100 * (below + equal / 2)) / group.length;
}

/** (x - median) / (1.4826 MAD); undefined where more than half of the group are equal. */
export function robustZ(x: number, group: readonly number[]): number | undefined {
  const middle = median(group);
  const mad = median(group.map((value) => Math.abs(value - middle)));
  return mad === 0 ? undefined : (x - middle) / (1.4826 * mad);
}

/** A new test against one's own earlier ones. */
export interface OwnBaseline {
  readonly n: number;
  readonly mean: number;
  readonly sd: number;
  /** Range in which the next test lies with the given probability: mean +- t SD sqrt(1 + 1/n). */
  readonly next: Estimate;
  /** (x - mean) / SD, and the t of the prediction, df n - 1. */
  readonly z: number;
  readonly t: number;
}

/** @param earlier without the new test @returns `too-few-values` under three, `no-spread` where all are equal */
export function againstOwn(x: number, earlier: readonly number[], level = usualLevel): Outcome<OwnBaseline> {
  const n = earlier.length;
  if (n < 3) return lack('too-few-values');
  const mean = meanOf(earlier);
  const sd = sdOf(earlier);
  if (sd === 0) return lack('no-spread');
  const error = sd * Math.sqrt(1 + 1 / n);
  const half = studentT.quantile(upperProbability(level), n - 1) * error;
  return have({
    ...{ n, mean, sd },
    next: estimate(mean, mean - half, mean + half, level),
    z: (x - mean) / sd,
    t: (x - mean) / error,
  });
}

/** Blom's normal score of rank i (1 to n): the normal quantile at (i - 3/8) / (n + 1/4). */
export const normalScore = (rank: number, n: number): number => normal.quantile((rank - 0.375) / (n + 0.25));

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(half)] as number) + (sorted[Math.ceil(half)] as number)) / 2;
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
