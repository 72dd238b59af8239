import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf } from '../../signal/index.ts';

/** Centre and limits of a chart of single values, from its baseline. */
export interface IndividualsChart {
  readonly n: number;
  readonly centre: number;
  /** Mean moving range / 1.128. */
  readonly sigma: number;
  readonly low: number;
  readonly high: number;
  /** Mean of the differences of consecutive values, and the limit of a single one. */
  readonly movingRange: number;
  readonly movingRangeHigh: number;
  /** Fewer than ten values: the limits are rough. */
  readonly provisional: boolean;
}

/** Expected range of two normal values in SD, and upper 3-sigma factor of such a range. */
const rangeOfTwo = 1.128;
const rangeLimit = 3.267;

/**
 * Shewhart's chart for individuals: mean +- 3 MR / 1.128.
 *
 * @returns `too-few-values` under six values
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2.
 */
export function individualsChart(baseline: readonly number[]): Outcome<IndividualsChart> {
  const n = baseline.length;
  if (n < 6) return lack('too-few-values');
  const centre = meanOf(baseline);
  const ranges = baseline.slice(1).map((value, i) => Math.abs(value - (baseline[i] as number)));
  const movingRange = meanOf(ranges);
  const sigma = movingRange / rangeOfTwo;
  return have({
    ...{ n, centre, sigma, movingRange },
    low: centre - 3 * sigma,
    high: centre + 3 * sigma,
    movingRangeHigh: rangeLimit * movingRange,
    provisional: n < 10,
  });
}

/** A rule that a point completed. */
export type RunRule = 'beyond-3-sigma' | '2-of-3-beyond-2-sigma' | '4-of-5-beyond-1-sigma' | '8-on-one-side';

const runs: readonly { readonly rule: RunRule; readonly of: number; readonly need: number; readonly beyond: number }[] =
  [
    { rule: 'beyond-3-sigma', of: 1, need: 1, beyond: 3 },
    { rule: '2-of-3-beyond-2-sigma', of: 3, need: 2, beyond: 2 },
    { rule: '4-of-5-beyond-1-sigma', of: 5, need: 4, beyond: 1 },
    { rule: '8-on-one-side', of: 8, need: 8, beyond: 0 },
  ];

/**
 * The rules each point completes, with itself among the points beyond, all on one side.
 *
 * @param z values in sigma about the centre
 * Source: NIST/SEMATECH e-Handbook 6.3.2 (Western Electric rules).
 */
export function runRules(z: readonly number[]): readonly (readonly RunRule[])[] {
  return z.map((_, at) =>
    runs.flatMap(({ rule, of, need, beyond }) => {
      if (at + 1 < of) return [];
      const last = z.slice(at + 1 - of, at + 1);
      const completes = (side: number) =>
        side * (z[at] as number) > beyond && last.filter((value) => side * value > beyond).length >= need;
      return completes(1) || completes(-1) ? [rule] : [];
    }),
  );
}

/** One point of an exponentially weighted mean. */
export interface EwmaPoint {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly out: boolean;
}

export interface EwmaOptions {
  readonly target: number;
  readonly sigma: number;
  /** Weight of the newest value; 0.3 where nobody says otherwise. */
  readonly weight?: number;
  /** Half-width of the limits in SD of the mean. */
  readonly width?: number;
  /** Limits as wide as they are after many values, as the handbook draws them; else they begin narrow. */
  readonly steady?: boolean;
}

/**
 * Exponentially weighted moving average: z_i = w x_i + (1 - w) z_(i-1), from the target; limits target +- L s sqrt(w / (2 - w) (1 -
 * (1 - w)^2i)).
 *
 * Source: NIST/SEMATECH e-Handbook 6.3.2.4; Lucas & Saccucci 1990, Technometrics 32:1-12.
 */
export function ewma(values: readonly number[], options: EwmaOptions): readonly EwmaPoint[] {
  const { target, sigma, weight = 0.3, width = 3, steady = false } = options;
  let mean = target;
  return values.map((value, i) => {
    mean = weight * value + (1 - weight) * mean;
    const grown = steady ? 1 : 1 - (1 - weight) ** (2 * (i + 1));
    const half = width * sigma * Math.sqrt((weight / (2 - weight)) * grown);
    return { mean, low: target - half, high: target + half, out: Math.abs(mean - target) > half };
  });
}

/** Sums of what goes beyond a slack, up and down. */
export interface CusumPoint {
  readonly high: number;
  readonly low: number;
  readonly out: boolean;
}

/**
 * Tabular cumulative sums: high_i = max(0, high_(i-1) + x_i - target - slack), low likewise; out above `limit`.
 *
 * Source: NIST/SEMATECH e-Handbook 6.3.2.3.
 */
export function cusum(
  values: readonly number[],
  { target, slack, limit }: { readonly target: number; readonly slack: number; readonly limit: number },
): readonly CusumPoint[] {
  let [high, low] = [0, 0];
  return values.map((value) => {
    high = Math.max(0, high + value - target - slack);
    low = Math.max(0, low + target - slack - value);
    return { high, low, out: high > limit || low > limit };
  });
}
