/** A cell: what people read; for machines the bare number, or a word that is the same in every language. */
export interface Cell {
  readonly text: string;
  readonly value?: number;
  readonly machine?: string;
}

export interface Column {
  /** Heading for machines: one lower-case word with underscores. */
  readonly id: string;
  readonly title: string;
  /** UCUM code of `value`, for machines. */
  readonly unit?: string;
  readonly align: 'left' | 'right';
}

/** A table; the first column names its row. */
export interface Table {
  /** Short name for a file or a sheet. */
  readonly id: string;
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  readonly note?: string;
}

export const text = (said: string, machine?: string): Cell =>
  machine === undefined ? { text: said } : { text: said, machine };
export const none: Cell = { text: '' };
