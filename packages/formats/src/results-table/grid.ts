/** A cell that is more than its text: a number or a day of a spreadsheet, or a part of a merged one. */
export interface RichCell {
  /** As a person reads it. */
  readonly text: string;
  readonly number?: number;
  /** UCUM code that the cell's own format says: `%`. */
  readonly unit?: string;
  /** `YYYY-MM-DD`. */
  readonly day?: string;
  /** `HH:MM:SS`. */
  readonly time?: string;
  /** Repeats the upper left cell of a merged block. */
  readonly merged?: true;
}

/** Text alone, or a cell of a spreadsheet. */
export type Cell = string | RichCell;

/** Rows of cells, as a file holds them; row 1 of the file is `rows[0]`, empty rows included. */
export interface Grid {
  readonly rows: readonly (readonly Cell[])[];
  /** Cells of the longest row. */
  readonly columns: number;
  /** Names of the sheets; empty for text. */
  readonly sheets: readonly string[];
  readonly sheet?: string;
  readonly encoding?: string;
  readonly delimiter?: string;
}

export const textOf = (cell: Cell | undefined): string =>
  cell === undefined ? '' : typeof cell === 'string' ? cell.trim() : cell.text.trim();

export const isEmpty = (cell: Cell | undefined): boolean => textOf(cell) === '';

/** Limits of what is read; beyond them a file is refused, never cut. */
export interface TableLimits {
  readonly bytes: number;
  readonly rows: number;
  readonly columns: number;
  readonly cells: number;
  /** Bytes of a spreadsheet after unpacking. */
  readonly unpacked: number;
}

/** Text is read at some 25 MB/s, a spreadsheet at about 40,000 cells a second on a small machine. */
export const textLimits: TableLimits = {
  bytes: 32 << 20,
  rows: 200_000,
  columns: 1_000,
  cells: 4_000_000,
  unpacked: 0,
};
export const sheetLimits: TableLimits = {
  bytes: 32 << 20,
  rows: 100_000,
  columns: 1_000,
  cells: 300_000,
  unpacked: 192 << 20,
};
