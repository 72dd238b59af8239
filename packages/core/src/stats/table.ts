import { have, lack, type Outcome } from '../outcome.ts';

/** One row a person, one column an occasion (session or trial); null where there is no value. Rows are equally long. */
export type Table = readonly (readonly (number | null)[])[];

/** Rows without a hole, and which were left out. */
export interface CompleteRows {
  readonly rows: readonly (readonly number[])[];
  /** Positions in the table of the rows that are used, and of those that are not. */
  readonly used: readonly number[];
  readonly leftOut: readonly number[];
  /** Columns. */
  readonly occasions: number;
}

/** The rows of a table that have every value. Throws RangeError when rows differ in length or a value is not finite. */
export function completeRows(table: Table): CompleteRows {
  const occasions = table[0]?.length ?? 0;
  const rows: (readonly number[])[] = [];
  const used: number[] = [];
  const leftOut: number[] = [];
  for (const [at, row] of table.entries()) {
    if (row.length !== occasions) throw new RangeError('The rows of a table are equally long.');
    for (const value of row)
      if (value !== null && !Number.isFinite(value)) throw new RangeError('A value of a table is a number or null.');
    if (row.every((value) => value !== null)) {
      rows.push(row as readonly number[]);
      used.push(at);
    } else leftOut.push(at);
  }
  return { rows, used, leftOut, occasions };
}

/**
 * The table in logs: 100 ln x, so that differences are per cent nearly and errors in proportion become errors of one size.
 *
 * @returns `not-positive` where a value is zero or less
 */
export function inLogs(table: Table): Outcome<Table> {
  const logs = table.map((row) => row.map((value) => (value === null ? null : 100 * Math.log(value))));
  return logs.every((row) => row.every((value) => value === null || Number.isFinite(value)))
    ? have(logs)
    : lack('not-positive');
}

/** A difference of 100 ln x as per cent. */
export const percentOfLogs = (difference: number): number => 100 * Math.expm1(difference / 100);
