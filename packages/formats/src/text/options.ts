/** Encodings the text reader knows; `latin-1` is read as Windows-1252, as browsers do. */
export type TextEncodingName = 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin-1';

/** How columns are understood: several channels of one trial, or one trial a column. */
export type TextLayout = 'channels' | 'trials';

/** What a person may tell the text reader; whatever is left out is recognised from the file. */
export interface TextOptions {
  /** One character; `' '` means runs of blanks, `''` a single column. */
  readonly delimiter?: string;
  readonly decimal?: '.' | ',';
  /** Name or 1-based number of the time column, or `'none'` (then a rate is needed). */
  readonly time?: string | number;
  /** Hz. Without a time column the rate itself; with one, the declared rate the measured one is snapped to. */
  readonly rate?: number;
  /** 1-based row of the column names, or `'none'`. */
  readonly header?: number | 'none';
  /** Unit by column name or 1-based number; wins over what the file says. */
  readonly units?: Readonly<Record<string, string>>;
  /** Names or 1-based numbers of the columns to read; the time column is always read. */
  readonly columns?: readonly (string | number)[];
  readonly layout?: TextLayout;
  readonly encoding?: TextEncodingName;
}
