/** A cell: what people read, and the bare value for machines where it is a number. */
export interface Cell {
  readonly text: string;
  readonly value?: number;
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

export const text = (said: string): Cell => ({ text: said });
export const none: Cell = { text: '' };
