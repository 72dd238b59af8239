import type { FormatError } from '../format-error.ts';
import type { Table } from './dialect.ts';
import { quoteFound, textError } from './errors.ts';
import type { Headings } from './header-rows.ts';
import type { TextOptions } from './options.ts';

/** More columns than this are no table of channels; the limit bounds memory. */
export const MOST_COLUMNS = 4_096;

/** A decimal comma in a comma-separated file shows as twice the cells the header has, or as one integer pair a line. */
export function decimalClash(table: Table, headings: Headings, options: TextOptions): FormatError | undefined {
  if (table.delimiter !== ',' || options.delimiter !== undefined || headings.header !== undefined) return undefined;
  const before = table.records.slice(0, headings.start).reverse();
  const header = before.find((record) => record.line.trim() !== '');
  const cells = header?.cells.filter((cell) => cell.trim() !== '').length ?? 0;
  const data = table.records[headings.start]?.cells ?? [];
  if (cells < 2 || cells * 2 !== data.length || !data.every((cell) => /^\s*[+-]?\d+\s*$/.test(cell))) return undefined;
  return textError(
    'text-decimal-is-delimiter',
    'The comma seems to be both the decimal sign and the sign between columns.',
    {
      expected: `${cells} columns, as in the header`,
      found: `${data.length} cells of digits`,
      at: { row: headings.start + 1 },
    },
  );
}

export function noTable(head: Uint8Array, options: TextOptions): FormatError {
  const first =
    new TextDecoder('latin1')
      .decode(head.subarray(0, 400))
      .split(/[\r\n]/)
      .find((line) => line.trim() !== '') ?? '';
  const told = options.header !== undefined || options.delimiter !== undefined || options.decimal !== undefined;
  return textError('text-no-numbers', `No rows of numbers were found${told ? ' with the options given' : ''}.`, {
    expected: 'one row of numbers per sample',
    found: quoteFound(first),
    at: { row: 1 },
  });
}

export function tooWide(width: number): FormatError {
  return textError('text-too-many-columns', `The table has ${width} columns.`, {
    expected: `at most ${MOST_COLUMNS} columns`,
    found: `${width}`,
  });
}
