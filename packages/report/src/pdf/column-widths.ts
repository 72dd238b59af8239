import type { Table } from '../model/table.ts';

/**
 * Widths of the columns of a table: each as wide as its longest text where all fit; else no narrower than its longest word, and the rest
 * of the room in the measure of what is wanted.
 *
 * @param room width for all columns, gaps not counted
 */
export function columnWidths(table: Table, room: number, measure: (said: string, bold: boolean) => number): number[] {
  const wanted = table.columns.map(({ title }, i) => {
    const texts = [{ said: title, bold: true }, ...table.rows.map((row) => ({ said: row[i]?.text ?? '', bold: false }))];
    const whole = Math.max(...texts.map(({ said, bold }) => measure(said, bold)));
    const word = Math.max(...texts.flatMap(({ said, bold }) => said.split(/[ \n-]/).map((one) => measure(one, bold))));
    return { whole: whole + 1, word: Math.min(word + 1, room / 2) };
  });
  const total = wanted.reduce((sum, { whole }) => sum + whole, 0);
  if (total <= room) {
    // What is left goes to text, which reads better with air; numbers stay close to their headings.
    const texts = table.columns.filter(({ align }) => align === 'left').length || 1;
    const more = (room - total) / texts;
    return wanted.map(({ whole }, i) => whole + (table.columns[i]?.align === 'left' ? more : 0));
  }
  const least = wanted.reduce((sum, { word }) => sum + word, 0);
  if (least >= room) return wanted.map(({ word }) => (word * room) / least);
  const share = (room - least) / (total - least);
  return wanted.map(({ whole, word }) => word + share * (whole - word));
}
