import type { Notice } from '@sthene/core';
import type { FormatError } from '../format-error.ts';
import type { TextEncodingName, TextLayout } from './options.ts';

/** One column as recognised. */
export interface TextColumn {
  /** 1-based number in the file. */
  readonly number: number;
  /** Name without its unit, unique; `column 3` where the file names none. */
  readonly name: string;
  /** The header cell as it stands, '' without a header row. */
  readonly header: string;
  /** UCUM code, '' where none is named. */
  readonly unit: string;
  /** `time` and `counter` (a sample number) make the time axis; `text` and `empty` columns are not read. */
  readonly role: 'time' | 'counter' | 'channel' | 'text' | 'empty';
  /** Cells hold clock times. */
  readonly clock: boolean;
  /** The first cells, as written. */
  readonly examples: readonly string[];
}

/** The time axis as recognised. */
export interface TextTime {
  /** 1-based number of the column. */
  readonly column: number;
  /** Seconds in one of the column's units; for a counter 1 / rate once a rate is known, else undefined. */
  readonly secondsPerUnit?: number;
  /** Mean step between neighbouring rows of the head, in the column's unit. */
  readonly step: number;
  /** Smallest difference the written digits can express, in the column's unit. */
  readonly resolution: number;
}

/** What was recognised in a text file: for a preview, and the plan a read follows. */
export interface TextDescription {
  readonly encoding: TextEncodingName;
  readonly byteOrderMark: boolean;
  readonly delimiter: string;
  readonly decimal: '.' | ',';
  /** 1-based rows; `preambleRows` lines stand before the header (or the data). */
  readonly preambleRows: number;
  readonly headerRow?: number;
  readonly unitsRow?: number;
  readonly dataRow: number;
  readonly columns: readonly TextColumn[];
  readonly time?: TextTime;
  /** Best knowledge before the whole file is read; absent when a rate has to be given. */
  readonly rate?: { readonly hertz: number; readonly from: 'time-column' | 'preamble' | 'given' };
  readonly rateMissing: boolean;
  readonly layout: TextLayout;
  /** Rows of data, by the last time of the file or the average length of the rows seen; exact for a file seen whole. */
  readonly rowsAbout: number;
  readonly confidence: 'high' | 'medium' | 'low';
  /** Why it was understood this way, sentences for people. */
  readonly reasons: readonly string[];
  readonly facts: Readonly<Record<string, string>>;
  readonly notices: readonly Notice[];
}

/** A description or a refusal. */
export type DescribeResult =
  | { readonly ok: true; readonly description: TextDescription }
  | { readonly ok: false; readonly error: FormatError };
