import type { Table } from '@sthene/core/stats';
import { columnOf, type FileTable, numberIn } from '../../files/table.ts';

/** People by occasions, with what each row and column is called. */
export interface NamedTable {
  readonly people: readonly string[];
  readonly occasions: readonly string[];
  readonly values: Table;
}

export interface TableOptions {
  readonly person?: string;
  readonly occasion?: string;
  readonly value?: string;
}

/** A wide table: a line for each person, a column for each occasion. A long one when the column of the value is named. */
export function tableOf(file: FileTable, { person, occasion, value }: TableOptions): NamedTable {
  const who = columnOf(file, person ?? '1');
  if (value !== undefined) return longTable(file, who, columnOf(file, occasion ?? '2'), columnOf(file, value));
  const occasions = file.columns.filter((column) => column !== who);
  return {
    people: file.rows.map((row) => row[who] ?? ''),
    occasions,
    values: file.rows.map((_, at) => occasions.map((column) => numberIn(file, at, column))),
  };
}

/** The first of two values of one person on one occasion stands. */
function longTable(file: FileTable, who: string, when: string, value: string): NamedTable {
  const people = [...new Set(file.rows.map((row) => row[who] ?? ''))];
  const occasions = [...new Set(file.rows.map((row) => row[when] ?? ''))];
  const found = new Map<string, number>();
  for (const [at, row] of file.rows.entries()) {
    const key = JSON.stringify([row[who], row[when]]);
    const number = numberIn(file, at, value);
    if (number !== null && !found.has(key)) found.set(key, number);
  }
  const values = people.map((one) => occasions.map((other) => found.get(JSON.stringify([one, other])) ?? null));
  return { people, occasions, values };
}
