import { type CellKind, kindOf } from './cells.ts';
import type { TextOptions } from './options.ts';
import { splitRecords, type TextRecord } from './records.ts';

/** What one way of reading the head gives: the block of rows that agree with each other. */
export interface Table {
  readonly delimiter: string;
  readonly decimal: '.' | ',';
  readonly records: readonly TextRecord[];
  /** Index of the first data record. */
  readonly start: number;
  /** Kind of each column: 'number', 'clock', 'text', or 'empty' where nothing was seen. */
  readonly kinds: readonly CellKind[];
  /** Data rows seen in the head, and the share of columns that hold numbers, weighed. */
  readonly score: number;
}

const CANDIDATES: readonly (readonly [string, '.' | ','])[] = [
  ['\t', '.'],
  ['\t', ','],
  [';', '.'],
  [';', ','],
  [',', '.'],
  ['|', '.'],
  [' ', '.'],
  [' ', ','],
  ['', '.'],
  ['', ','],
];

/** Rows looked at in full; a head of thousands of short lines gives no more certainty. */
const MOST_ROWS = 3_000;

/**
 * The most convincing way to read the head as a table of numbers: most agreeing rows, then most columns.
 *
 * @returns undefined when no way gives a single row of numbers
 */
export function findTable(text: string, whole: boolean, options: TextOptions): Table | undefined {
  let best: Table | undefined;
  for (const [delimiter, decimal] of candidates(text, options)) {
    const table = tableBy(splitRecords(text, delimiter, whole), delimiter, decimal, options);
    if (table === undefined) continue;
    const better = best === undefined || table.score > best.score * 1.000001;
    const wider = best !== undefined && table.score >= best.score * 0.999999 && table.kinds.length > best.kinds.length;
    if (better || wider) best = table;
  }
  if (best !== undefined && options.delimiter === undefined && options.decimal === undefined && isCommaDecimal(best)) {
    best = tableBy(splitRecords(text, '', whole), '', ',', options) ?? best;
  }
  if (best?.kinds.length === 1 && options.delimiter === undefined) {
    // One column has no delimiter; the lines around it are read without one too.
    return tableBy(splitRecords(text, '', whole), '', best.decimal, options) ?? best;
  }
  return best;
}

/**
 * Two comma-separated columns of whole numbers may be one column with a decimal comma: so says a header of one cell, or a second
 * column of fixed width with leading zeros beside a first one that does not count.
 */
function isCommaDecimal(table: Table): boolean {
  if (table.delimiter !== ',' || table.kinds.length !== 2) return false;
  const rows = table.records.slice(table.start, table.start + 500).filter((record) => record.cells.length === 2);
  if (!rows.every(({ cells }) => /^[+-]?\d+$/.test(cells[0]!) && /^\d+$/.test(cells[1]!))) return false;
  const header = table.records[table.start - 1];
  if (header !== undefined) return header.cells.length === 1;
  const width = rows[0]?.cells[1]?.length ?? 0;
  const fixed = rows.every(({ cells }) => cells[1]!.length === width);
  const zeros = rows.some(({ cells }) => cells[1]!.startsWith('0') && width > 1);
  const counts = rows.every(({ cells }, i) => i === 0 || Number(cells[0]) > Number(rows[i - 1]!.cells[0]));
  return fixed && zeros && !counts;
}

function candidates(text: string, options: TextOptions): (readonly [string, '.' | ','])[] {
  const list = CANDIDATES.filter(([delimiter]) => options.delimiter === undefined || delimiter === options.delimiter);
  if (options.delimiter !== undefined && list.length === 0)
    list.push([options.delimiter, '.'], [options.delimiter, ',']);
  // A sign that does not occur divides nothing: its candidate would be the single column again.
  const occurs = (sign: string) => sign === '' || text.includes(sign) || (sign === ' ' && text.includes('\t'));
  return list.filter(
    ([delimiter, decimal]) =>
      delimiter !== decimal &&
      (options.decimal === undefined ? decimal === '.' || occurs(decimal) : decimal === options.decimal) &&
      (options.delimiter !== undefined || occurs(delimiter)),
  );
}

function tableBy(
  records: readonly TextRecord[],
  delimiter: string,
  decimal: '.' | ',',
  options: TextOptions,
): Table | undefined {
  const after = typeof options.header === 'number' ? options.header : 0;
  const rows = records.map((record, index) => (index < after ? [] : record.cells.map((cell) => kindOf(cell, decimal))));
  const width = usualWidth(rows);
  if (width === 0) return undefined;
  const kinds = columnKinds(rows, width);
  if (!kinds.includes('number')) return undefined;
  const fits = rows.map((row) => agrees(row, kinds));
  const start = firstData(rows, fits, width);
  if (start < 0) return undefined;
  let count = 0;
  for (let i = start; i < fits.length; i++) if (fits[i]) count++;
  const numeric = kinds.filter((kind) => kind !== 'text').length / width;
  return { delimiter, decimal, records, start, kinds, score: count * numeric };
}

const isValue = (kind: CellKind | undefined): boolean => kind === 'number' || kind === 'clock';

/** The commonest cell count among rows that are at least half numbers. */
function usualWidth(rows: readonly CellKind[][]): number {
  const votes = new Map<number, number>();
  const step = Math.max(1, Math.floor(rows.length / MOST_ROWS));
  for (let i = 0; i < rows.length; i += step) {
    const row = rows[i]!;
    const values = row.filter(isValue).length;
    const filled = row.filter((kind) => kind !== 'empty' && kind !== 'missing').length;
    if (values > 0 && values * 2 >= filled) votes.set(row.length, (votes.get(row.length) ?? 0) + 1);
  }
  let width = 0;
  let most = 0;
  for (const [count, times] of votes)
    if (times > most || (times === most && count > width)) [width, most] = [count, times];
  return width;
}

function columnKinds(rows: readonly CellKind[][], width: number): CellKind[] {
  const votes = Array.from({ length: width }, () => ({ number: 0, clock: 0, text: 0, missing: 0, empty: 0 }));
  for (const row of rows) {
    if (row.length !== width || !row.some(isValue)) continue;
    for (let c = 0; c < width; c++) votes[c]![row[c]!]++;
  }
  return votes.map((v) => {
    if (v.number + v.clock + v.text === 0) return v.missing > 0 ? 'number' : 'empty';
    if (v.clock > v.number && v.clock >= v.text) return 'clock';
    return v.number >= v.text ? 'number' : 'text';
  });
}

function agrees(row: readonly CellKind[], kinds: readonly CellKind[]): boolean {
  if (row.length > kinds.length && row.slice(kinds.length).some((kind) => kind !== 'empty')) return false;
  let values = 0;
  for (let c = 0; c < Math.min(row.length, kinds.length); c++) {
    const kind = row[c]!;
    if (kind === 'missing' || kind === 'empty' || kinds[c] === 'text') continue;
    if (kind !== kinds[c] && !(kinds[c] === 'empty' && kind === 'number')) return false;
    values++;
  }
  return values > 0;
}

/** The first full row that agrees and is followed by rows that mostly agree. */
function firstData(rows: readonly CellKind[][], fits: readonly boolean[], width: number): number {
  for (let i = 0; i < rows.length; i++) {
    if (!fits[i] || rows[i]!.length < width) continue;
    let seen = 0;
    let good = 0;
    for (let k = i + 1; k < rows.length && seen < 6; k++) {
      if (rows[k]!.every((kind) => kind === 'empty')) continue;
      seen++;
      if (fits[k]) good++;
    }
    if (good * 2 >= seen) return i;
  }
  return -1;
}
