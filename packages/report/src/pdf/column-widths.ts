import type { Table } from '../model/table.ts';

/** What a column needs, in points. */
interface Wanted {
  /** Its longest text on one line. */
  readonly whole: number;
  /** What it may be pressed to: numbers are never broken, text by words. */
  readonly least: number;
}

/**
 * Widths of the columns of a table: each as wide as its longest text where all fit; else no narrower than it may be pressed to, and the
 * rest of the room in the measure of what is wanted.
 *
 * @param room width for all columns, gaps not counted
 */
export function columnWidths(table: Table, room: number, measure: (said: string, bold: boolean) => number): number[] {
  const wanted = table.columns.map((_, i) => wantedOf(table, i, room, measure));
  const total = wanted.reduce((sum, { whole }) => sum + whole, 0);
  if (total <= room) {
    // What is left goes to text, which reads better with air; numbers stay close to their headings.
    const last = table.columns.findLastIndex(({ align }) => align === 'left');
    const more = (room - total) / 2;
    return wanted.map(({ whole }, i) => whole + (i === 0 ? (last <= 0 ? 0 : more * 0.6) : i === last ? more : 0));
  }
  const least = wanted.reduce((sum, one) => sum + one.least, 0);
  if (least >= room) return wanted.map((one) => (one.least * room) / least);
  const share = (room - least) / (total - least);
  return wanted.map((one) => one.least + share * (one.whole - one.least));
}

function wantedOf(
  { columns, rows }: Table,
  i: number,
  room: number,
  measure: (said: string, bold: boolean) => number,
): Wanted {
  const title = columns[i]?.title ?? '';
  const texts = rows.flatMap((row) => (row[i]?.text ?? '').split('\n'));
  const widest = (said: readonly string[], bold: boolean) => Math.max(0, ...said.map((one) => measure(one, bold)));
  const [head, cells] = [measure(title, true), widest(texts, false)];
  const words = Math.max(widest(parts(title), true), widest(texts.flatMap(parts), false));
  const number = columns[i]?.align === 'right';
  // The first column names the row: it is broken only where it would take too much.
  const least = number
    ? Math.max(cells, words, head * 0.6)
    : i === 0
      ? Math.max(words, Math.min(cells, room * 0.3))
      : words;
  return { whole: Math.max(head, cells) + 1, least: Math.min(least + 1, room * 0.6, Math.max(head, cells) + 1) };
}

/** Pieces of a text that stay on one line. */
const parts = (said: string): string[] => said.split(/(?<=[ -])/);
