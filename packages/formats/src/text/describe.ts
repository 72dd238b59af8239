import type { ByteSource } from '../format.ts';
import { readFully } from '../read-fully.ts';
import { clockSeconds } from './cells.ts';
import type { DescribeResult, TextDescription } from './description.ts';
import { isWide, scannedAs, wideToUtf8 } from './encoding.ts';
import { type HeadResult, readHead } from './head.ts';
import { numberOf } from './number.ts';
import type { TextOptions } from './options.ts';
import { splitRecords, type TextRecord } from './records.ts';

const LAST_LOOK = 64 * 1024;

/**
 * What is recognised in a text file, from its first and last 64 kB and its length (further only while no data row has come):
 * for a preview screen and for inspection. Rows and rate are estimates until the whole is read. Errors as in `readHead`.
 */
export async function describeText(source: ByteSource, options: TextOptions = {}): Promise<DescribeResult> {
  const head = await readHead(source, options);
  if (!head.ok) return head;
  const { description } = head.found;
  if (head.whole) return { ok: true, description };
  const rows = rowsByTime(description, await lastRecords(source, head, description));
  return { ok: true, description: rows === undefined ? description : { ...description, rowsAbout: rows } };
}

/** Records of the end of the file; the first, cut one is left out. */
async function lastRecords(
  source: ByteSource,
  head: HeadResult & { readonly ok: true },
  description: TextDescription,
): Promise<readonly TextRecord[]> {
  const { name } = head.encoding;
  const wide = isWide(name);
  let from = Math.max(head.encoding.mark, source.length - LAST_LOOK);
  if (wide) from += from % 2;
  const bytes = await readFully(source, from, LAST_LOOK);
  const text = new TextDecoder(scannedAs(name)).decode(wide ? wideToUtf8(name)(bytes, true) : bytes);
  const cut = text.search(/[\r\n]/);
  return cut < 0 ? [] : splitRecords(text.slice(cut + 1), description.delimiter, true);
}

/** Rows by the last time of the file and the mean step of its head; undefined when there is no such time. */
function rowsByTime(description: TextDescription, records: readonly TextRecord[]): number | undefined {
  const { time, columns, decimal } = description;
  const column = columns[(time?.column ?? 0) - 1];
  if (time === undefined || column === undefined || !(time.step > 0)) return undefined;
  const value = (cell: string | undefined) =>
    cell === undefined ? undefined : column.clock ? clockSeconds(cell) : numberOf(cell, decimal);
  const first = value(column.examples[0]);
  for (let i = records.length - 1; i >= 0; i--) {
    const last = records[i]!.cells.length > 1 ? value(records[i]!.cells[time.column - 1]) : undefined;
    if (first === undefined || last === undefined) continue;
    return last > first ? Math.round((last - first) / time.step) + 1 : undefined;
  }
  return undefined;
}
