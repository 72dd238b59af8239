import { checkFacts } from '@sthene/core';
import { words } from '../../words/index.ts';
import { type CheckResult, checkQuantities, type Result } from './numbers.ts';

/** A check of a result with its definition's words. */
export interface CheckRow {
  readonly id: string;
  readonly title: string;
  readonly result: CheckResult;
  readonly ratesOnly: boolean;
}

const rank = { fail: 0, warn: 1, pass: 2, 'not-judged': 3 } as const;

/** Checks worst first; among equals those that touch the whole trial before those that touch only rates. */
export function checkRows(result: Result): CheckRow[] {
  const order = new Map(checkFacts.all.map((check, i) => [check.id, i]));
  return Object.entries(result.checks)
    .map(([id, one]): CheckRow => {
      const definition = checkFacts.get(id);
      return { id, title: definition?.title ?? id.replaceAll('_', ' '), result: one, ratesOnly: ratesOnly(id, one) };
    })
    .sort(
      (a, b) =>
        rank[a.result.status] - rank[b.result.status] ||
        Number(a.ratesOnly) - Number(b.ratesOnly) ||
        (order.get(a.id) ?? 99) - (order.get(b.id) ?? 99),
    );
}

/** `stepped_start` touches only rates while it merely warns; the others as their definition says. */
function ratesOnly(id: string, result: CheckResult): boolean {
  if (id === 'stepped_start') return result.status === 'warn';
  return checkFacts.get(id)?.scope === 'rates';
}

/** One plain sentence about a check that did not pass. */
export function findingWords(row: CheckRow, result: Result): string {
  const { value, limit } = checkQuantities(result, row.result);
  const say = words.findings[row.id];
  return say && value !== undefined ? say(value, limit ?? '?') : (checkFacts.get(row.id)?.finding ?? row.title);
}
