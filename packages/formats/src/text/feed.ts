import type { ByteReader } from './byte-reader.ts';
import { LONGEST_LINE } from './head.ts';
import { type BadCell, BLOCK_ROWS, type RowScanner } from './row-scanner.ts';

const CHUNK = 256 * 1024;

/** What the driver of a scan is told. */
export interface FeedHandler {
  /** The scanner's block is to be emptied; false ends the feeding. */
  block(): Promise<boolean>;
  /** A line with a wrong cell was skipped. */
  badLine(bad: BadCell, line: Uint8Array): void;
}

/**
 * Feeds a scanner from a reader, whole rows at a time, keeping a row that goes on in the next piece.
 *
 * @returns the row number of a line longer than the limit, where the feeding ended at one
 */
export async function feedRows(
  reader: ByteReader,
  scanner: RowScanner,
  handler: FeedHandler,
): Promise<number | undefined> {
  const buffer = new Uint8Array(CHUNK + LONGEST_LINE + 2);
  let have = 0;
  for (;;) {
    const got = await reader.next(buffer.subarray(have, have + CHUNK));
    have += got;
    const last = got === 0;
    if (last) {
      scanner.atEnd = true;
      if (have > 0 && !isBreak(buffer[have - 1]!)) buffer[have++] = 10;
    }
    const limit = lastBreak(buffer, have, last);
    let pos = 0;
    while (pos < limit) {
      pos = scanner.scan(buffer, pos, limit);
      if (scanner.bad !== undefined) {
        if (!(await handler.block())) return undefined;
        const next = lineEnd(buffer, pos, limit);
        handler.badLine(scanner.bad, buffer.subarray(pos, next));
        scanner.bad = undefined;
        pos = next;
      } else if (scanner.rows >= BLOCK_ROWS) {
        if (!(await handler.block())) return undefined;
      } else break;
    }
    if (last) break;
    buffer.copyWithin(0, pos, have);
    have -= pos;
    if (have >= LONGEST_LINE) {
      await handler.block();
      return scanner.row + 1;
    }
  }
  await handler.block();
  return undefined;
}

const isBreak = (byte: number): boolean => byte === 10 || byte === 13;

/** Position behind the last line break; a carriage return at the end of a piece may be half of a CRLF and waits. */
function lastBreak(buffer: Uint8Array, have: number, last: boolean): number {
  const lf = have > 0 ? buffer.lastIndexOf(10, have - 1) : -1;
  if (lf >= 0 && !last) return lf + 1;
  const from = have - (last ? 1 : 2);
  const cr = from >= 0 ? buffer.lastIndexOf(13, from) : -1;
  return Math.max(lf, cr) + 1;
}

function lineEnd(buffer: Uint8Array, from: number, limit: number): number {
  let at = from;
  while (at < limit && !isBreak(buffer[at]!)) at++;
  return Math.min(limit, at + (buffer[at] === 13 && buffer[at + 1] === 10 ? 2 : 1));
}
