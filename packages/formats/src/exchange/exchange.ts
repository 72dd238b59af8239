import { csvField, csvNumber, eachRecord, numberOfField } from '../data-package/csv.ts';
import type { FormatError } from '../format-error.ts';
import { guardText, unguardText } from '../text/header-cell.ts';
import { exchangeFields, exchangeFormat } from './fields.ts';

/** One value with all that says where it comes from; names are the columns of the file. */
export interface ExchangeRow {
  readonly lab_id: string;
  readonly row_id: string;
  readonly origin?: string | undefined;
  readonly person_id: string;
  readonly code: string;
  readonly given_name?: string | undefined;
  readonly family_name?: string | undefined;
  readonly birth_date?: string | undefined;
  readonly session_id: string;
  readonly started_at: string;
  readonly time_known: boolean;
  readonly test: string;
  readonly test_version?: number | undefined;
  readonly protocol?: string | undefined;
  readonly protocol_version?: number | undefined;
  readonly protocol_sha256?: string | undefined;
  readonly trial_id?: string | undefined;
  readonly trial?: number | undefined;
  readonly effort?: string | undefined;
  readonly of: string;
  readonly metric: string;
  readonly value?: number | undefined;
  readonly unit: string;
  readonly reason?: string | undefined;
  readonly verdict?: string | undefined;
  readonly standing?: string | undefined;
  readonly overruled?: boolean | undefined;
  readonly result_id?: string | undefined;
  readonly computed_at?: string | undefined;
  readonly method_name?: string | undefined;
  readonly method_version?: number | undefined;
  readonly method_sha256?: string | undefined;
  readonly method_label?: string | undefined;
  readonly recording_sha256?: string | undefined;
  readonly given_value?: string | undefined;
  readonly given_unit?: string | undefined;
  readonly file_sha256?: string | undefined;
  readonly application: string;
}

type Name = (typeof exchangeFields)[number]['name'];
const numbers = new Set<string>(exchangeFields.filter(({ type }) => type === 'number').map(({ name }) => name));
const flags = new Set<string>(['time_known', 'overruled']);
const names: readonly Name[] = exchangeFields.map(({ name }) => name);

/** The first record of a file. */
export const exchangeHeader = (): string => `${names.join(',')}\r\n`;

/** One row as a CSV record (RFC 4180); text a spreadsheet would run as a formula gets an apostrophe. */
export function exchangeRecord(row: ExchangeRow): string {
  const cells = names.map((name) => {
    const value = name === 'format' ? exchangeFormat : row[name as keyof ExchangeRow];
    if (value === undefined) return '';
    if (typeof value === 'number') return csvNumber(value);
    return typeof value === 'boolean' ? String(value) : csvField(guardText(value));
  });
  return `${cells.join(',')}\r\n`;
}

/** A row that is no row of the file's own rules. */
export interface BadExchangeRow {
  readonly row: number;
  readonly column: string;
  readonly found: string;
}

export type ReadExchange =
  | {
      readonly ok: true;
      readonly rows: readonly (ExchangeRow & { readonly at: number })[];
      readonly bad: readonly BadExchangeRow[];
    }
  | { readonly ok: false; readonly error: FormatError };

/** Whether text begins as an exchange file does. */
export const looksLikeExchange = (head: Uint8Array): boolean => {
  const text = new TextDecoder().decode(head.subarray(0, 256)).replace(/^\uFEFF/, '');
  return /^"?format"?,"?lab_id"?,"?row_id"?,/.test(text);
};

/** Rows that are read at once; with more the file is refused, never cut. */
const most = 500_000;

const pieceLength = 500_000;

/** The text cut behind whole records: a line end at which every quote is closed. */
function* piecesOf(text: string): Generator<string> {
  for (let from = 0; from < text.length; ) {
    let to = from + pieceLength >= text.length ? text.length : text.indexOf('\n', from + pieceLength) + 1;
    while (to > 0 && to < text.length && openQuote(text.slice(from, to))) to = text.indexOf('\n', to) + 1;
    if (to === 0) to = text.length;
    yield text.slice(from, to);
    from = to;
  }
}

const openQuote = (piece: string): boolean => (piece.split('"').length - 1) % 2 === 1;

/**
 * Reads an exchange file back. Columns are found by their names, so that one that was added later, or put elsewhere by a spreadsheet,
 * does no harm. A row that breaks a rule is listed, and the rest goes on.
 *
 * @param pause awaited after each piece of the file, so that whoever reads it can do other things in between
 */
export async function readExchange(bytes: Uint8Array, pause?: () => Promise<unknown>): Promise<ReadExchange> {
  const text = new TextDecoder().decode(bytes).replace(/^\uFEFF/, '');
  const rows: (ExchangeRow & { at: number })[] = [];
  const bad: BadExchangeRow[] = [];
  let header: string[] | undefined;
  let closed = true;
  let before = 0;
  for (const piece of piecesOf(text)) {
    let seen = 0;
    closed = eachRecord(piece, (record, index) => {
      seen = index + 1;
      if (header === undefined) header = record;
      else if (rows.length <= most && record.some((cell) => cell !== '')) {
        const at = before + index + 1;
        const read = rowOf(header, record);
        if ('column' in read) bad.push({ row: at, ...read });
        else rows.push({ ...read, at });
      }
    });
    before += seen;
    if (!closed || rows.length > most) break;
    await pause?.();
  }
  if (rows.length > most)
    return {
      ok: false,
      error: {
        code: 'table-too-large',
        message: `The exchange file has more than ${most} rows.`,
        next: 'Take it out in pieces, for example one test or one season a file, and bring in each.',
        expected: `${most}`,
      },
    };
  const missing = exchangeFields.find((field) => 'constraints' in field && !header?.includes(field.name));
  if (!closed || missing !== undefined)
    return {
      ok: false,
      error: {
        code: 'exchange-damaged',
        message: closed
          ? `This exchange file has no column "${missing?.name}".`
          : 'A quotation mark in this exchange file is never closed.',
        next: 'Take the file as it was exported, without saving it from a spreadsheet.',
      },
    };
  return { ok: true, rows, bad };
}

function rowOf(header: readonly string[], record: readonly string[]): ExchangeRow | { column: string; found: string } {
  const row: Record<string, string | number | boolean> = {};
  for (const [c, name] of header.entries()) {
    const cell = record[c] ?? '';
    if (cell === '' || !names.includes(name as Name)) continue;
    if (numbers.has(name)) {
      const number = numberOfField(cell);
      if (number === undefined || !Number.isFinite(number)) return { column: name, found: cell.slice(0, 40) };
      row[name] = number;
    } else if (flags.has(name)) {
      if (!/^(true|false)$/i.test(cell)) return { column: name, found: cell.slice(0, 40) };
      row[name] = cell.toLowerCase() === 'true';
    } else row[name] = unguardText(cell);
  }
  const missing = exchangeFields.find((field) => 'constraints' in field && row[field.name] === undefined);
  if (missing !== undefined) return { column: missing.name, found: '' };
  if (row.format !== exchangeFormat) return { column: 'format', found: String(row.format).slice(0, 40) };
  if ((row.value === undefined) === (row.reason === undefined)) return { column: 'value', found: '' };
  const { format: _, ...rest } = row;
  return rest as unknown as ExchangeRow;
}
