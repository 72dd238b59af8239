import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { exitCodes } from '../terminal/exit-codes.ts';
import { Failure } from '../terminal/failure.ts';

/** A table of a file: named columns, cells as text. */
export interface FileTable {
  readonly columns: readonly string[];
  readonly rows: readonly Readonly<Record<string, string>>[];
}

const broken = (code: string, message: string, next: string) =>
  new Failure(code, message, next, exitCodes.inputInvalid);

/** Reads a CSV table with a line of headings; delimiter recognised. */
export function readTable(path: string): FileTable {
  let text: string;
  try {
    text = readFileSync(path, 'utf8').replace(/^\uFEFF/, '');
  } catch {
    throw new Failure('file-not-readable', `"${path}" cannot be read.`, 'Check the path.', exitCodes.nothingFound);
  }
  const parsed = Papa.parse<Record<string, string>>(text, {
    header: true,
    skipEmptyLines: 'greedy',
    transformHeader: (name) => name.trim(),
  });
  const columns = parsed.meta.fields ?? [];
  const fault = parsed.errors.find(({ code }) => code !== 'UndetectableDelimiter');
  if (fault !== undefined)
    throw broken(
      'table-uneven',
      `Line ${(fault.row ?? 0) + 2} of "${path}" does not fit the headings: ${fault.message}.`,
      'Give every line as many cells as there are headings; an empty cell is a missing value.',
    );
  if (columns.length < 2 || parsed.data.length === 0)
    throw broken(
      'table-empty',
      `"${path}" holds no table.`,
      'Save it as CSV: a line of headings, then a line for each athlete or value.',
    );
  return { columns, rows: parsed.data };
}

/** The column a person names, by its heading or its number from 1. */
export function columnOf({ columns }: FileTable, name: string): string {
  const found = columns.find((one) => one === name) ?? columns[Number(name) - 1];
  if (found === undefined)
    throw broken('table-column', `There is no column "${name}".`, `Choose one of: ${columns.join(', ')}.`);
  return found;
}

const missing = new Set(['', 'na', 'nan', 'n/a', '-', '.']);

/** A cell as a number; null where it is empty or says that there is none. A decimal comma is read as one. */
export function numberIn(table: FileTable, row: number, column: string): number | null {
  const text = (table.rows[row]?.[column] ?? '').trim();
  if (missing.has(text.toLowerCase())) return null;
  const plain = /^[+-]?\d+,\d+$/.test(text) ? text.replace(',', '.') : text;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
  if (!Number.isFinite(value))
    throw broken(
      'table-not-a-number',
      `"${text}" in column "${column}", line ${row + 2}, is no number.`,
      'Write numbers alone, without units; leave the cell empty where there is none.',
    );
  return value;
}
