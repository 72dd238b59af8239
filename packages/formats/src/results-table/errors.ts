import type { FormatError } from '../format-error.ts';
import type { Grid } from './grid.ts';

export type ReadGrid = { readonly ok: true; readonly grid: Grid } | { readonly ok: false; readonly error: FormatError };

const refuse = (code: string, message: string, next: string, more: Partial<FormatError> = {}): ReadGrid => ({
  ok: false,
  error: { code, message, next, ...more },
});

/** Every refusal of a whole table, spelled once. */
export const tableRefusals = {
  empty: () =>
    refuse(
      'table-empty',
      'The table holds no row with anything in it.',
      'Choose the sheet or the file that has the values.',
    ),
  tooLarge: (what: string, expected: string, found: string) =>
    refuse(
      'table-too-large',
      `The table has ${what}: ${found}, and ${expected} are read at once.`,
      'Save it in pieces, for example one season a file, and bring in each.',
      { expected, found },
    ),
  notText: (row: number) =>
    refuse(
      'table-not-text',
      'The file holds NUL characters, so it is no table of text.',
      'Open it where it was made and save it as CSV, or bring in the XLSX file itself.',
      { at: { row } },
    ),
  openQuote: (row: number) =>
    refuse(
      'table-open-quote',
      `A quotation mark in row ${row} is never closed, so the rows behind it cannot be told apart.`,
      'Close or remove it, and bring the file in again.',
      { at: { row } },
    ),
  damaged: (found: string) =>
    refuse(
      'table-damaged',
      'The spreadsheet cannot be opened: it is damaged, or protected with a password.',
      'Open it where it was made and save it again without a password, or as CSV.',
      { found },
    ),
  oldSheet: () =>
    refuse(
      'table-old-spreadsheet',
      'This is a spreadsheet of the old binary kind (XLS).',
      'Save it as XLSX or CSV and bring that in.',
    ),
  noSheet: (name: string) =>
    refuse('table-no-such-sheet', `The file has no sheet "${name}".`, 'Choose one of its sheets.', { found: name }),
};
