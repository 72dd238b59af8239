import type { DayOrder } from './days.ts';

/** What a received value is of: one trial, the mean or the best of a set; `unknown` where nobody can say. */
export type ValueOf = 'trial' | 'mean' | 'best' | 'unknown';

/** Columns that say whom, when and what, each at most once. */
export const soleRoles = [
  'code',
  'name',
  'given-name',
  'family-name',
  'birth-date',
  'sex',
  'date',
  'time',
  'test',
  'trial',
  'of',
  'method',
  'metric',
  'value',
  'unit',
] as const;
export type SoleRole = (typeof soleRoles)[number];

/** What one column is. */
export type ColumnRole =
  | { readonly as: 'ignore' }
  | { readonly as: SoleRole }
  /** Wide: a column of one metric; with several for one metric, which trial or what it is of. */
  | {
      readonly as: 'values';
      readonly metric: string;
      /** UCUM code of the values. */
      readonly unit: string;
      readonly trial?: number | undefined;
      readonly of?: ValueOf | undefined;
    };

/** How a table of results is understood; kept and offered again for the same headings. */
export interface ResultsMapping {
  readonly sheet?: string | undefined;
  readonly delimiter?: string | undefined;
  readonly encoding?: 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin-1' | undefined;
  /** 1-based row of the headings; 0 when there are none. */
  readonly header: number;
  /** 1-based first row of values. */
  readonly first: number;
  readonly decimal: '.' | ',';
  readonly dayOrder: DayOrder;
  readonly columns: readonly ColumnRole[];
  /** What values are of where neither column nor cell says so. */
  readonly of: ValueOf;
  /** Long: our metric for each name in the metric column; '' leaves it out. */
  readonly metrics: Readonly<Record<string, string>>;
  /** Long: unit by name of the metric, where no unit column says it; UCUM codes. */
  readonly units: Readonly<Record<string, string>>;
  /** Our test for each name in the test column; '' leaves its rows out. */
  readonly tests: Readonly<Record<string, string>>;
}

/** A table has one value a row when it says which metric and which value in columns of their own. */
export const isLong = ({ columns }: Pick<ResultsMapping, 'columns'>): boolean =>
  columns.some(({ as }) => as === 'value') && columns.some(({ as }) => as === 'metric');
