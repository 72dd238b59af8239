import type { ComparedMetric } from '@sthene/contract';
import { type MetricFacts, meanOf } from '@sthene/core';
import type { MetricValue } from '@sthene/store';
import { isForce } from '../athlete/history.ts';
import { agreementOf } from './agreement.ts';

/** A metric of one trial or session under both methods; undefined where a method has none at all. */
export type Both = readonly [MetricValue | undefined, MetricValue | undefined];

/** Values that differ by less than this share of their size are the same: the rest is rounding. */
const sameWithin = 1e-9;

export interface Paired {
  readonly at: number;
  readonly first: number;
  readonly second: number;
}

/** Pairs of values in one unit, with their place in the list; the unit is the first one found. */
export function pairsOf(both: readonly Both[]): {
  readonly unit: string | undefined;
  readonly pairs: Paired[];
  readonly onlyFirst: number;
  readonly onlySecond: number;
} {
  const pairs: Paired[] = [];
  let [onlyFirst, onlySecond] = [0, 0];
  let unit: string | undefined;
  for (const [at, [a, b]] of both.entries()) {
    const [first, second] = [valued(a), valued(b)];
    unit ??= first?.unit ?? second?.unit;
    if (first === undefined && second === undefined) continue;
    if (first === undefined) onlySecond++;
    else if (second === undefined) onlyFirst++;
    else if (first.unit === unit && second.unit === unit) pairs.push({ at, first: first.value, second: second.value });
  }
  return { unit, pairs, onlyFirst, onlySecond };
}

const valued = (one: MetricValue | undefined) => (one !== undefined && 'value' in one ? one : undefined);

/**
 * One metric under both methods, second less first. Forces and rates are compared in logs where all values are above zero, as
 * elsewhere; everything else in its unit.
 *
 * @returns undefined where neither method gave a value
 */
export function comparedMetric(
  { id, title, unit: usual }: MetricFacts,
  both: readonly Both[],
  allLines = false,
): ComparedMetric | undefined {
  const { unit = usual, pairs, onlyFirst, onlySecond } = pairsOf(both);
  if (pairs.length + onlyFirst + onlySecond === 0) return undefined;
  const positive = pairs.every(({ first, second }) => first > 0 && second > 0);
  const scale = isForce(unit) && positive ? 'log' : 'unit';
  const base = { id, title, unit, scale, n: pairs.length, onlyFirst, onlySecond } as const;
  if (pairs.length === 0) return { ...base, same: false, reason: 'too-few-values' };
  const same = pairs.every(
    ({ first, second }) => Math.abs(second - first) <= sameWithin * Math.max(Math.abs(first), Math.abs(second)),
  );
  const means: [number, number] = [meanOf(pairs.map((one) => one.first)), meanOf(pairs.map((one) => one.second))];
  if (same) return { ...base, means, same };
  const of = (which: 'first' | 'second') =>
    pairs.map((one) => (scale === 'log' ? 100 * Math.log(one[which]) : one[which]));
  const study = agreementOf(of('first'), of('second'), allLines);
  return { ...base, means, same, ...(study.ok ? { study: study.value } : { reason: study.reason }) };
}
