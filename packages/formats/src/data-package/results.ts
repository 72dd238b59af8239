import { csvNumber, csvRecord, numberOfField, parseCsv } from './csv.ts';
import type { Field } from './descriptor.ts';
import { fault } from './errors.ts';
import { isUcum } from './ucum.ts';

/** One metric of one trial: a value with its unit, or the reason why there is none. */
export interface ResultRow {
  readonly trial: string;
  readonly metric: string;
  readonly value: number | null;
  /** UCUM code; `1` for a ratio. */
  readonly unit: string;
  readonly reason: string | null;
}

export const resultFields: readonly Field[] = [
  { name: 'trial', type: 'string', description: 'Which trial.', constraints: { required: true } },
  {
    name: 'metric',
    type: 'string',
    description: 'Which metric, by its permanent name.',
    constraints: { required: true },
  },
  { name: 'value', type: 'number', description: 'The value in the unit of this row; empty when there is a reason.' },
  { name: 'unit', type: 'string', description: 'UCUM code of the value.', constraints: { required: true } },
  {
    name: 'reason',
    type: 'string',
    description: 'Why there is no value, by its permanent name; empty when there is one.',
  },
];

/** Why a row may not be written, or null. */
export function resultProblem(row: ResultRow): string | null {
  if (row.trial === '' || row.metric === '') return 'a trial and a metric are needed';
  if (!isUcum(row.unit)) return `"${row.unit}" is no UCUM code`;
  if (row.value === null)
    return row.reason === null || row.reason === '' ? 'a reason must stand where a value is missing' : null;
  if (!Number.isFinite(row.value)) return 'a value must be a finite number';
  return row.reason === null ? null : 'a value and a reason exclude each other';
}

/** The rows as CSV with a header record. */
export function resultsCsv(rows: readonly ResultRow[]): Uint8Array {
  const records = rows.map(({ trial, metric, value, unit, reason }) =>
    csvRecord([trial, metric, value === null ? '' : csvNumber(value), unit, reason ?? '']),
  );
  return new TextEncoder().encode(csvRecord(resultFields.map((field) => field.name)) + records.join(''));
}

/** Reads the rows back; throws `data-package-bad-table` at the first row that breaks the table's rules. */
export function readResults(text: string): ResultRow[] {
  const bad = (row: number, what: string) =>
    fault('data-package-bad-table', `results.csv, row ${row}: ${what}.`, 'Take the package as it was exported.', {
      at: { row },
    });
  const records = parseCsv(text);
  if (records === null) throw bad(1, 'a quote is never closed');
  const [header = [], ...body] = records;
  if (header.join() !== resultFields.map((field) => field.name).join())
    throw bad(1, 'the columns are not those of results');
  return body.map((record, i) => {
    const [trial = '', metric = '', field = '', unit = '', reason = ''] = record;
    const number = numberOfField(field);
    if (record.length !== resultFields.length || number === undefined) throw bad(i + 2, 'not a row of results');
    const value = Number.isNaN(number) ? null : number;
    const row: ResultRow = { trial, metric, value, unit, reason: reason === '' ? null : reason };
    const problem = resultProblem(row);
    if (problem !== null) throw bad(i + 2, problem);
    return row;
  });
}
