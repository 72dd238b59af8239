import type { Cell, Column, Table } from '../model/table.ts';

/**
 * Text that a spreadsheet would run as a formula gets an apostrophe before it; numbers never do. A true minus, which only people read, is
 * no formula.
 */
export const unformula = (text: string): string => (/^[=+\-@\t\r\n]/.test(text) ? `'${text}` : text);

/** One CSV cell. */
function cell(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Heading for machines with its unit, as `value_n` would hide it: `value [N]`. */
export const machineHead = ({ id, unit }: Column): string =>
  unit === undefined || unit === '' ? id : `${id} [${unit}]`;

const machineCell = ({ text, value, machine }: Cell): string =>
  value === undefined ? unformula(machine ?? plain(text)) : String(value);

/** Blanks that only a printer needs become plain ones. */
export const plain = (text: string): string => text.replace(/[\u00a0\u202f\u2002]/g, ' ').replace(/^\u2003/, '');

/**
 * A table for machines: full precision, a point in every number, one line a row.
 *
 * Source: RFC 4180; UTF-8 without a mark.
 */
export function csvOf({ columns, rows }: Table): string {
  const lines = [columns.map(machineHead), ...rows.map((row) => row.map(machineCell))];
  return lines.map((line) => `${line.map(cell).join(',')}\r\n`).join('');
}

/** What is pasted of a cell: of a number plain signs without groups, so that it stays one; other text as it is read, never a formula. */
export function pasted({ text, value }: Cell): string {
  const bare = text.replaceAll('\u202f', '').replaceAll('\u2212', '-');
  if (value !== undefined && /^[+-]?\d+(?:[.,]\d+)?$/.test(bare)) return bare.replace('+', '');
  return unformula(plain(text));
}

/** A table as a spreadsheet takes it from the clipboard: what people read, tabs between. Tabs and line ends in text become blanks. */
export function tabbedOf({ columns, rows }: Table): string {
  const lines = [columns.map(({ title }) => plain(title)), ...rows.map((row) => row.map(pasted))];
  return lines.map((line) => line.map((said) => said.replace(/[\t\r\n]+/g, ' ')).join('\t')).join('\n');
}
