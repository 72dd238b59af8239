import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf } from '../../signal/index.ts';

/** One-way mean squares of people with any number of values each. */
export interface OneWay {
  readonly people: number;
  readonly values: number;
  /** Mean squares between and within people, and their degrees of freedom. */
  readonly between: number;
  readonly within: number;
  readonly df: readonly [number, number];
  /** The number of values a person that a balanced study would have to have: (N - sum k_i^2 / N) / (n - 1). */
  readonly effective: number;
  /** (between - within) / (between + (effective - 1) within) */
  readonly icc: Outcome<number>;
}

/**
 * One-way analysis where people have different numbers of values, in no order that matters; nothing is left out.
 *
 * @returns `too-few-values` under two people, or where nobody has two values
 * Source: Donner 1986, Int Stat Rev 54:67-82 (analysis-of-variance estimator for unequal groups, from memory).
 */
export function oneWay(groups: readonly (readonly number[])[]): Outcome<OneWay> {
  const there = groups.filter((group) => group.length > 0);
  const n = there.length;
  const sizes = there.map((group) => group.length);
  const total = sizes.reduce((sum, size) => sum + size, 0);
  if (n < 2 || total === n) return lack('too-few-values');
  const grand = meanOf(there.flat());
  let between = 0;
  let within = 0;
  for (const group of there) {
    const mean = meanOf(group);
    between += group.length * (mean - grand) ** 2;
    for (const value of group) within += (value - mean) ** 2;
  }
  const df = [n - 1, total - n] as const;
  const [msb, msw] = [between / df[0], within / df[1]];
  const effective = (total - sizes.reduce((sum, size) => sum + size * size, 0) / total) / (n - 1);
  const below = msb + (effective - 1) * msw;
  const icc = below > 0 ? have((msb - msw) / below) : lack('no-spread');
  return have({ people: n, values: total, between: msb, within: msw, df, effective, icc });
}
