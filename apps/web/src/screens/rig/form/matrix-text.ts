import { numberOf } from './number-of.ts';

/** Blanks between two cells, with no comma beside them: then a comma is a decimal sign. */
const blanksSeparate = /[^\s,]\s+[^\s,]/u;

/**
 * A matrix as people paste it, as cells: a line a row, or rows in brackets; between the cells tabs, semicolons, commas or blanks. Where
 * tabs, semicolons or blanks separate, a comma is a decimal sign. A minus may be the typographic one, as certificates print it.
 */
export function matrixCells(text: string): string[][] {
  const lines = text
    .replaceAll('\u2212', '-')
    .replaceAll('[', ' ')
    .replaceAll(/\]\s*[,;]?/gu, '\n')
    .split(/\r\n|\r|\n/u)
    .filter((line) => line.trim() !== '');
  const has = (sign: string) => lines.some((line) => line.includes(sign));
  const separator = has('\t')
    ? '\t'
    : has(';')
      ? ';'
      : has(',') && !lines.some((line) => blanksSeparate.test(line.trim()))
        ? ','
        : /\s+/u;
  return lines.map((line) => {
    const cells = (separator === '\t' ? line : line.trim()).split(separator).map((cell) => cell.trim());
    // A separator at the end of a line, as tables and programs leave it, is no further cell.
    while (cells.length > 1 && cells.at(-1) === '') cells.pop();
    return cells;
  });
}

/** The cells as numbers; what is none stays text, so that it is refused at its place. */
export const matrixOf = (text: string): (number | string)[][] =>
  matrixCells(text).map((row) => row.map((cell) => numberOf(cell) ?? ''));

export const matrixText = (matrix: readonly (readonly number[])[]): string =>
  matrix.map((row) => row.join('\t')).join('\n');
