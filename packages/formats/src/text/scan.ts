import type { Notice } from '@sthene/core';
import type { ByteSource } from '../format.ts';
import type { FormatError } from '../format-error.ts';
import { byteReader } from './byte-reader.ts';
import type { TextColumn, TextDescription } from './description.ts';
import { scannedAs } from './encoding.ts';
import { textError, textNotice } from './errors.ts';
import { factList } from './facts.ts';
import { feedRows } from './feed.ts';
import { type HeadResult, readHead, tooLong } from './head.ts';
import type { TextOptions } from './options.ts';
import { BLOCK_ROWS, RowScanner } from './row-scanner.ts';
import { chooseColumns, planOf } from './scan-plan.ts';
import { closeGrid, type ScannedGrid } from './scanned-grid.ts';
import { Tail } from './tail.ts';
import { TimeGrid } from './time-grid.ts';

/** Some rows of the table. The arrays are reused: copy what has to stay. */
export interface TextBlock {
  /** 0-based number of the block's first row among the data rows. */
  readonly firstRow: number;
  readonly rows: number;
  /** One array a column, in the order of `ScanSummary.columns`; NaN where a cell is missing. */
  readonly columns: readonly Float64Array[];
}

/** Takes one block; false ends the scan. */
// biome-ignore lint/suspicious/noConfusingVoidType: a sink that returns nothing goes on
export type TextSink = (block: TextBlock) => void | boolean | Promise<void | boolean>;

/** What a scan learned; its memory does not grow with the number of rows. */
export interface ScanSummary {
  readonly description: TextDescription;
  /** The columns of the blocks; the time axis first where there is one. */
  readonly columns: readonly TextColumn[];
  readonly rows: number;
  /** Absent when neither the file nor the options give a rate. */
  readonly grid?: ScannedGrid;
  /** Preamble and footer. */
  readonly facts: Readonly<Record<string, string>>;
  readonly notices: readonly Notice[];
}

export type ScanResult =
  | { readonly ok: true; readonly summary: ScanSummary }
  | { readonly ok: false; readonly error: FormatError };

/**
 * Reads a text of any size in constant memory: blocks of up to 4096 rows go to `sink` in order.
 *
 * A wrong cell, a time that turns back or a line without end stops the reading; what came before was delivered, and a notice
 * tells row, column, what was found and how many rows were left. Lines of words after the data become facts.
 * Errors: those of recognition; `text-column-unknown`; `text-cell-not-a-number`, `text-line-too-long` and `text-no-numbers` when
 * no row came before; `text-time-not-increasing`.
 */
export async function scanText(source: ByteSource, options: TextOptions, sink: TextSink): Promise<ScanResult> {
  const head = await readHead(source, options);
  return head.ok ? scanRecognised(source, head, options, sink) : head;
}

/** {@link scanText} behind a head that is already recognised. */
export async function scanRecognised(
  source: ByteSource,
  head: HeadResult & { readonly ok: true },
  options: TextOptions,
  sink: TextSink,
): Promise<ScanResult> {
  const { description, dataByte } = head.found;
  const chosen = chooseColumns(description, options.columns);
  if (!chosen.ok) return chosen;
  const { columns } = chosen;
  const { time } = description;
  const grid = time !== undefined && time.step > 0 ? new TimeGrid(time, columns.length - 1) : undefined;
  const scanner = new RowScanner(planOf(description, columns), description.dataRow);
  const views = columns.map((_, c) => scanner.values.subarray(c * BLOCK_ROWS, (c + 1) * BLOCK_ROWS));
  const words = new TextDecoder(scannedAs(head.encoding.name));
  const tail = new Tail((bytes) => words.decode(bytes));
  const reader = byteReader(source, head.encoding, dataByte);
  let rows = 0;

  const endless = await feedRows(reader, scanner, {
    badLine: (bad, line) => {
      if (grid?.stopped === undefined) tail.add(bad, line);
    },
    block: async () => {
      const count = scanner.rows;
      scanner.rows = 0;
      if (count === 0) return true;
      if (tail.bad !== undefined || grid?.stopped !== undefined) {
        tail.rowsAfter += count;
        return true;
      }
      const taken = grid === undefined ? count : grid.take(views[0]!, scanner.rowNumbers, count);
      tail.rowsAfter += count - taken;
      if (taken === 0) return true;
      const firstRow = rows;
      rows += taken;
      return (await sink({ firstRow, rows: taken, columns: views.map((view) => view.subarray(0, taken)) })) !== false;
    },
  });

  if (rows === 0) return { ok: false, error: nothingRead(endless, tail, description) };
  const facts = factList();
  for (const fact of Object.entries(description.facts)) facts.add(fact);
  if (tail.isFooter) tail.addFacts(facts, description.delimiter);
  const notices = [...description.notices];
  if (tail.bad !== undefined && !tail.isFooter) notices.push(tail.notice(rows));
  if (tail.isFooter && tail.cut > 0) {
    notices.push(textNotice('text-facts-cut', `${tail.cut} further lines after the data were not kept as facts.`));
  }
  if (endless !== undefined) {
    notices.push(textNotice('text-line-too-long', `Row ${endless} is too long for a row; reading ended before it.`));
  }
  if (reader.shrank())
    notices.push(textNotice('text-file-shrank', 'The file ended before the length it had at the start.'));
  notices.push(...rowNotices(scanner));
  const axis = closeGrid(description, grid, rows, tail.rowsAfter, options);
  if (!axis.ok) return axis;
  notices.push(...axis.notices);
  const summary = { description, columns, rows, facts: facts.all(), notices };
  return { ok: true, summary: axis.grid === undefined ? summary : { ...summary, grid: axis.grid } };
}

function nothingRead(endless: number | undefined, tail: Tail, description: TextDescription): FormatError {
  if (endless !== undefined) return tooLong(endless);
  if (tail.bad !== undefined) {
    const { row, column, found } = tail.bad;
    return textError('text-cell-not-a-number', tail.message, { expected: 'a number', found, at: { row, column } });
  }
  return textError('text-no-numbers', 'No rows of numbers were found.', { at: { row: description.dataRow } });
}

function rowNotices(scanner: RowScanner): Notice[] {
  const notices: Notice[] = [];
  const { missingCells, shortRows, longRows, firstShort, firstLong } = scanner;
  if (missingCells > 0) {
    notices.push(
      textNotice('text-missing-cells', `${missingCells} cells hold no value; they are gaps in the recording.`),
    );
  }
  if (shortRows > 0) {
    notices.push(
      textNotice(
        'text-short-rows',
        `${shortRows} rows, the first in row ${firstShort}, have too few cells; the rest is missing.`,
      ),
    );
  }
  if (longRows > 0) {
    notices.push(
      textNotice(
        'text-long-rows',
        `${longRows} rows, the first in row ${firstLong}, have cells beyond the last column; these were left out.`,
      ),
    );
  }
  return notices;
}
