import type { ValueOf } from './mapping.ts';
import type { Refused } from './refused.ts';

/** Who a row speaks of, as the table says it. */
export interface TablePerson {
  /** Stable within the table: everything that is said of the person. */
  readonly key: string;
  readonly code?: string;
  readonly name?: string;
  readonly givenName?: string;
  readonly familyName?: string;
  /** `YYYY-MM-DD`. */
  readonly birthDate?: string;
  readonly sex?: 'female' | 'male' | 'other';
  /** First row that speaks of them. */
  readonly row: number;
}

/** One value of the table, in the metric's own unit. */
export interface TableValue {
  readonly row: number;
  readonly column: number;
  readonly person: string;
  readonly day: string;
  readonly time?: string;
  readonly zone?: string;
  /** Our test; absent where the table has no column of tests. */
  readonly test?: string;
  readonly position?: number;
  readonly of: ValueOf;
  readonly method?: string;
  readonly metric: string;
  readonly value: number;
  readonly unit: string;
  readonly given: { readonly value: string; readonly unit: string };
}

/** What a table says under a mapping. */
export interface TableResults {
  readonly people: readonly TablePerson[];
  readonly values: readonly TableValue[];
  readonly refused: readonly Refused[];
  /** Cells that say that there is no value. */
  readonly missing: number;
  /** Names of metrics that were left out, by how many values each had. */
  readonly leftOut: Readonly<Record<string, number>>;
}
