import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf, sdOf } from '../../signal/index.ts';
import { noncentralTQuantile, studentT } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';

/** Published half-width of the limits, in SD. */
export const usualSpan = 1.96;

/** Differences of two methods on the same people, first minus second. */
export interface LimitsOfAgreement {
  readonly n: number;
  /** Mean difference with its t interval. */
  readonly bias: Estimate;
  readonly sd: number;
  /** bias - span SD and bias + span SD, each with its interval. */
  readonly lower: Estimate;
  readonly upper: Estimate;
  /** Half-width in SD. */
  readonly span: number;
  /** Standard error of a limit by the formula of 1999; the intervals above are exact instead. */
  readonly limitError: number;
}

/**
 * Limits of agreement d +- span s. Their intervals are exact for normal differences: the bounds lie at d + s t'(n-1, span sqrt n) /
 * sqrt n, t' the noncentral t quantile.
 *
 * @returns `too-few-values` under three pairs, `no-spread` where all differences are equal
 * Sources: Bland & Altman 1986, Lancet 327:307-310; 1999, Stat Methods Med Res 8:135-160; exact bounds Carkeet 2015, Optom Vis Sci
 * 92:e71-e80.
 */
export function limitsOfAgreement(
  differences: readonly number[],
  { span = usualSpan, level = usualLevel }: { readonly span?: number; readonly level?: number } = {},
): Outcome<LimitsOfAgreement> {
  const n = differences.length;
  if (n < 3) return lack('too-few-values');
  const mean = meanOf(differences);
  const sd = sdOf(differences);
  if (sd === 0) return lack('no-spread');
  const p = upperProbability(level);
  const half = (studentT.quantile(p, n - 1) * sd) / Math.sqrt(n);
  const [near, far] = quantilesOf(p, n, span).map((t) => (t * sd) / Math.sqrt(n)) as [number, number];
  return have({
    n,
    bias: estimate(mean, mean - half, mean + half, level),
    sd,
    lower: estimate(mean - span * sd, mean - far, mean - near, level),
    upper: estimate(mean + span * sd, mean + near, mean + far, level),
    span,
    limitError: sd * Math.sqrt(1 / n + (span * span) / (2 * (n - 1))),
  });
}

const quantiles = new Map<string, readonly [number, number]>();
const mostQuantiles = 100;

/** The noncentral t quantiles of the bounds. They cost most of the work and depend on the number of pairs alone: tables share them. */
function quantilesOf(p: number, n: number, span: number): readonly [number, number] {
  const key = `${p} ${n} ${span}`;
  const known = quantiles.get(key);
  if (known !== undefined) return known;
  const shift = span * Math.sqrt(n);
  const found = [noncentralTQuantile(1 - p, n - 1, shift), noncentralTQuantile(p, n - 1, shift)] as const;
  if (quantiles.size >= mostQuantiles) quantiles.clear();
  quantiles.set(key, found);
  return found;
}

/** One person measured several times by each of two methods. */
export interface Replicates {
  readonly first: readonly number[];
  readonly second: readonly number[];
}

/** Limits for single values from replicates. */
export interface ReplicateLimits {
  readonly people: number;
  readonly bias: number;
  /** SD of the differences of the means, and of single values, corrected for the replicates. */
  readonly sdOfMeans: number;
  readonly sd: number;
  /** SD within a person by each method. */
  readonly within: readonly [number, number];
  readonly lower: number;
  readonly upper: number;
}

/**
 * Limits of agreement of single values where each person was measured several times by each method in no order that pairs them:
 * s^2 = s^2 of the differences of means + (1 - mean of 1/m1) s_w1^2 + (1 - mean of 1/m2) s_w2^2.
 *
 * @returns `too-few-values` under two people, or without a replicate by either method
 * Source: Bland & Altman 1999, Stat Methods Med Res 8:135-160.
 */
export function replicateLimits(people: readonly Replicates[], span = usualSpan): Outcome<ReplicateLimits> {
  const first = withinSd(people.map((one) => one.first));
  const second = withinSd(people.map((one) => one.second));
  if (people.length < 2 || first === undefined || second === undefined) return lack('too-few-values');
  const differences = people.map((one) => meanOf(one.first) - meanOf(one.second));
  const bias = meanOf(differences);
  const sdOfMeans = sdOf(differences);
  const shareOf = (which: keyof Replicates) => 1 - meanOf(people.map((one) => 1 / one[which].length));
  const sd = Math.sqrt(sdOfMeans ** 2 + shareOf('first') * first ** 2 + shareOf('second') * second ** 2);
  return have({
    ...{ people: people.length, bias, sdOfMeans, sd },
    within: [first, second],
    lower: bias - span * sd,
    upper: bias + span * sd,
  });
}

/** Root mean square within people: sqrt(sum of squares / sum of (m - 1)); for pairs sqrt(sum d^2 / 2n). */
export function withinSd(groups: readonly (readonly number[])[]): number | undefined {
  let squares = 0;
  let df = 0;
  for (const group of groups) {
    if (group.length === 0) return undefined;
    const mean = meanOf(group);
    for (const value of group) squares += (value - mean) ** 2;
    df += group.length - 1;
  }
  return df === 0 ? undefined : Math.sqrt(squares / df);
}
