import type { Table } from './dialect.ts';
import { type HeaderCell, parseHeaderCell } from './header-cell.ts';
import { splitRecords, type TextRecord } from './records.ts';
import { unitInHeader } from './unit-names.ts';

/** Where names and units stand; indices into the table's records. */
export interface Headings {
  readonly header?: number;
  readonly units?: number;
  /** Index of the first data record (a row of plain trial numbers moves it on by one). */
  readonly start: number;
  readonly cells: readonly HeaderCell[];
  /** Header cells as written. */
  readonly written: readonly string[];
  readonly reason: string;
}

/**
 * Finds the header row and a units row before the data.
 *
 * @param decode turns the one-character-a-byte text of the records into real text
 * @param given 1-based row of the header, or 'none'
 */
export function findHeadings(table: Table, decode: (text: string) => string, given?: number | 'none'): Headings {
  const { records, start, kinds } = table;
  const width = kinds.length;
  const nothing = { start, cells: [], written: [] };
  if (given === 'none') return { ...nothing, reason: 'The file was said to have no header row.' };
  if (given !== undefined) {
    const record = records[given - 1];
    if (record === undefined) return { ...nothing, reason: `Row ${given} lies beyond the head of the file.` };
    return heading(record, given - 1, undefined, Math.max(start, given), `Row ${given} was named as the header.`);
  }
  const before: number[] = [];
  for (let i = start - 1; i >= 0 && before.length < 2; i--) if (records[i]!.line.trim() !== '') before.push(i);
  const [last, previous] = before;
  if (last === undefined) return numberedTrials() ?? { ...nothing, reason: 'The data begin in the first row.' };
  const fitting = (index: number | undefined): TextRecord | undefined => {
    const record = index === undefined ? undefined : fit(records[index]!, width, table.delimiter);
    return record;
  };
  const lastRecord = fitting(last);
  const previousRecord = fitting(previous);
  if (lastRecord !== undefined && previousRecord !== undefined && previous !== undefined && isUnits(lastRecord)) {
    return heading(
      previousRecord,
      previous,
      lastRecord,
      start,
      `Row ${previous + 1} holds names, row ${last + 1} units.`,
      last,
    );
  }
  if (lastRecord !== undefined)
    return heading(lastRecord, last, undefined, start, `Row ${last + 1} holds the column names.`);
  return { ...nothing, reason: `The line before the data does not have ${width} cells, so the columns have no names.` };

  function heading(
    names: TextRecord,
    header: number,
    units: TextRecord | undefined,
    first: number,
    reason: string,
    unitsIndex?: number,
  ): Headings {
    const written = Array.from({ length: width }, (_, c) => decode(names.cells[c] ?? '').trim());
    const cells = written.map((cell, c) => {
      const parsed = parseHeaderCell(cell);
      const below = units === undefined ? undefined : bareUnit(decode(units.cells[c] ?? ''));
      return below === undefined ? parsed : { name: parsed.unit === below ? parsed.name : cell, unit: below };
    });
    return { header, start: first, cells, written, reason, ...(unitsIndex === undefined ? {} : { units: unitsIndex }) };
  }

  /** A first row of exactly 1, 2, 3 ... numbers trials; as a sample it would be a strange coincidence. */
  function numberedTrials(): Headings | undefined {
    const first = records[start];
    if (first === undefined || width < 3 || first.cells.length !== width || records[start + 1] === undefined)
      return undefined;
    if (!first.cells.every((cell, c) => cell.trim() === String(c + 1))) return undefined;
    return heading(first, start, undefined, start + 1, `Row ${start + 1} numbers the columns.`);
  }

  function isUnits(record: TextRecord): boolean {
    const filled = record.cells.map((cell) => decode(cell).trim()).filter((cell) => cell !== '');
    return filled.length > 0 && filled.every((cell) => bareUnit(cell) !== undefined);
  }
}

/** A record with the table's width: blank-separated names may be split by tabs or double blanks, extra cells must be empty. */
function fit(record: TextRecord, width: number, delimiter: string): TextRecord | undefined {
  const fits = (cells: readonly string[]) => {
    const filled = cells.filter((cell) => cell.trim() !== '').length;
    const extra = cells.slice(width).some((cell) => cell.trim() !== '');
    return cells.length >= width && !extra && filled * 2 >= width && filled > 0;
  };
  if (width === 1 && /[=:]/.test(record.line)) return undefined;
  if (fits(record.cells)) return record;
  if (delimiter !== ' ') return undefined;
  const line = record.line.replace(/^[#%]\s*/, '');
  for (const split of [
    line.split(/\t/),
    line.split(/ {2,}/),
    splitRecords(line, ',', true)[0]?.cells ?? [],
    line.trim().split(/\s+/),
  ]) {
    const cells = split.map((cell) => cell.trim());
    if (cells.length === width && fits(cells)) return { ...record, cells };
  }
  return undefined;
}

function bareUnit(cell: string): string | undefined {
  const text = cell.trim();
  const inner = /^[[(](.*)[\])]$/.exec(text)?.[1] ?? text;
  return unitInHeader(inner.trim(), inner !== text);
}
