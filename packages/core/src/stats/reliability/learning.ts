import { meanOf, sdOf } from '../../signal/index.ts';
import { studentT } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import type { Table } from '../table.ts';
import type { ErrorOfTest } from './typical-error.ts';

/** What changed from one occasion to the next, over the people who have both. */
export interface Step {
  /** Position of the earlier occasion. */
  readonly from: number;
  readonly people: number;
  /** Mean change with its t interval; undefined under two people. */
  readonly change: Estimate | undefined;
  /** SD of the changes / sqrt 2, from this pair alone; undefined under two people. */
  readonly error: ErrorOfTest | undefined;
  /** The interval leaves out zero. */
  readonly shifted: boolean;
}

/**
 * Changes between consecutive occasions: mean change d with d +- t sqrt(SD^2 / n), df n - 1, and the typical error of each pair.
 *
 * Source: Hopkins 2000, Sports Med 30:1-15.
 */
export function learningSteps(table: Table, level = usualLevel): readonly Step[] {
  const occasions = table[0]?.length ?? 0;
  return Array.from({ length: Math.max(0, occasions - 1) }, (_, from) => stepOf(table, from, level));
}

function stepOf(table: Table, from: number, level: number): Step {
  const changes = table.flatMap((row) => {
    const [before, after] = [row[from], row[from + 1]];
    return typeof before === 'number' && typeof after === 'number' ? [after - before] : [];
  });
  const people = changes.length;
  if (people < 2) return { from, people, change: undefined, error: undefined, shifted: false };
  const mean = meanOf(changes);
  const sd = sdOf(changes);
  const half = (studentT.quantile(upperProbability(level), people - 1) * sd) / Math.sqrt(people);
  const change = estimate(mean, mean - half, mean + half, level);
  return {
    from,
    people,
    change,
    error: { value: sd / Math.SQRT2, df: people - 1 },
    shifted: change.low > 0 || change.high < 0,
  };
}

/**
 * First occasions to keep out as familiarisation: all up to the last shift, so that none is left behind it; undefined when the last
 * step still shifts, because then the study does not say when it stops. A rule of this product, no published one.
 */
export function familiarisation(steps: readonly Step[]): number | undefined {
  const last = steps.findLastIndex(({ shifted }) => shifted);
  return last === steps.length - 1 && steps.length > 0 ? undefined : last + 1;
}
