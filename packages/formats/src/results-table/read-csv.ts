import Papa from 'papaparse';
import { findEncoding, scannedAs } from '../text/encoding.ts';
import type { TextEncodingName } from '../text/options.ts';
import { type ReadGrid, tableRefusals } from './errors.ts';
import { type TableLimits, textLimits } from './grid.ts';

/** What a person may say of a text table; all of it is found where left out. */
export interface CsvReading {
  readonly delimiter?: string;
  readonly encoding?: TextEncodingName;
}

const delimiters = ['\t', ';', ',', '|'] as const;

/** Reads delimited text (RFC 4180, and its relatives with tab, semicolon or bar) into rows of cells. */
export function readCsv(bytes: Uint8Array, reading: CsvReading = {}, limits: TableLimits = textLimits): ReadGrid {
  if (bytes.length > limits.bytes)
    return tableRefusals.tooLarge('too many bytes', `${limits.bytes} bytes`, `${bytes.length}`);
  const { name, mark } = encodingOf(bytes, reading.encoding);
  const text = new TextDecoder(name === 'latin-1' ? scannedAs(name) : name).decode(bytes.subarray(mark));
  const nul = text.indexOf('\0');
  if (nul >= 0) return tableRefusals.notText(text.slice(0, nul).split('\n').length);
  if (text.trim() === '') return tableRefusals.empty();
  const delimiter = reading.delimiter ?? delimiterOf(text);
  const rows: string[][] = [];
  let cells = 0;
  let columns = 0;
  let refused: ReadGrid | undefined;
  Papa.parse<string[]>(text, {
    delimiter,
    // A quote that is never closed swallows the rest: it is told, not repaired.
    step: ({ data, errors }, parser) => {
      rows.push(data);
      cells += data.length;
      columns = Math.max(columns, data.length);
      if (errors.some(({ type }) => type === 'Quotes')) refused = tableRefusals.openQuote(rows.length);
      else if (rows.length > limits.rows)
        refused = tableRefusals.tooLarge('too many rows', `${limits.rows} rows`, `more than ${limits.rows}`);
      else if (columns > limits.columns)
        refused = tableRefusals.tooLarge('too many columns', `${limits.columns} columns`, `${columns}`);
      else if (cells > limits.cells)
        refused = tableRefusals.tooLarge('too many cells', `${limits.cells} cells`, `more than ${limits.cells}`);
      if (refused) parser.abort();
    },
  });
  if (refused) return refused;
  while (rows.length > 0 && (rows.at(-1) as string[]).every((cell) => cell.trim() === '')) rows.pop();
  return rows.length === 0
    ? tableRefusals.empty()
    : { ok: true, grid: { rows, columns, sheets: [], encoding: name, delimiter } };
}

/** By mark; without one, text in which every other byte is NUL is UTF-16; else UTF-8 or latin-1. */
function encodingOf(bytes: Uint8Array, given: TextEncodingName | undefined): { name: TextEncodingName; mark: number } {
  const head = bytes.subarray(0, 64 * 1024);
  const found = findEncoding(head, head.length === bytes.length, given);
  if (given !== undefined || found.mark > 0) return found;
  const zeros = [0, 0];
  for (let i = 0; i < head.length; i++) if (head[i] === 0) zeros[i % 2] = (zeros[i % 2] as number) + 1;
  const [even = 0, odd = 0] = zeros;
  if (odd > head.length / 5 && even === 0) return { name: 'utf-16le', mark: 0 };
  if (even > head.length / 5 && odd === 0) return { name: 'utf-16be', mark: 0 };
  // A head that is plain ASCII says nothing of the rest.
  if (found.name === 'utf-8' && head.length < bytes.length) return findEncoding(bytes, true);
  return found;
}

/** The delimiter under which the first rows are most alike: most cells in rows of the commonest width. */
function delimiterOf(text: string): string {
  const head = text.slice(0, 64 * 1024);
  const scored = delimiters.map((delimiter) => {
    const { data } = Papa.parse<string[]>(head, { delimiter, preview: 60 });
    const widths = data.filter((row) => row.some((cell) => cell.trim() !== '')).map((row) => row.length);
    const counts = new Map<number, number>();
    for (const width of widths) if (width > 1) counts.set(width, (counts.get(width) ?? 0) + 1);
    const [width = 1, rows = 0] = [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
    return { delimiter, score: widths.length === 0 ? 0 : (rows / widths.length) * Math.min(width, 4) };
  });
  return scored.reduce((best, one) => (one.score > best.score ? one : best), { delimiter: ',', score: 0 }).delimiter;
}
