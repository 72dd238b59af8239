import { readFileSync } from 'node:fs';

/** What R computed: made by make-statistics.R beside it, R 4.2.2, lme4 1.1-31, lmerTest 3.1-3. */
export const r = JSON.parse(readFileSync(new URL('./statistics.json', import.meta.url), 'utf8')) as RFixture;

interface Point {
  readonly value: number;
  readonly x: number;
  readonly p: number;
  readonly df: number;
  readonly a: number;
  readonly b: number;
  readonly ncp: number;
}

export interface RModel {
  readonly criterion: number;
  readonly sigma: number;
  readonly components: readonly {
    readonly group: string;
    readonly first: string | null;
    readonly second: string | null;
    readonly variance: number;
    readonly sd: number;
  }[];
  readonly fixed: readonly Readonly<Record<'value' | 'error' | 'df' | 't' | 'p', number>>[];
  readonly effects: Readonly<Record<string, number | readonly number[]>>;
  readonly singular: boolean;
}

interface RSet {
  readonly y: readonly number[];
  readonly person: readonly string[];
  readonly time: readonly number[];
  readonly session: readonly string[];
}

interface RFixture {
  readonly normal: readonly Point[];
  readonly normalQuantile: readonly Point[];
  readonly t: readonly Point[];
  readonly tQuantile: readonly Point[];
  readonly chiSquare: readonly Point[];
  readonly chiSquareQuantile: readonly Point[];
  readonly f: readonly Point[];
  readonly fQuantile: readonly Point[];
  readonly noncentralT: readonly Point[];
  readonly line: { readonly coefficients: readonly (readonly number[])[]; readonly sigma: number; readonly r: number };
  readonly anova: readonly {
    readonly x: readonly (readonly number[])[];
    readonly df: readonly number[];
    readonly sum: readonly number[];
    readonly f: readonly number[];
    readonly p: readonly number[];
  }[];
  readonly oneWay: {
    readonly groups: readonly (number | readonly number[])[];
    readonly df: readonly number[];
    readonly mean: readonly number[];
  };
  readonly sets: Readonly<Record<string, RSet>>;
  readonly models: Readonly<Record<string, RModel>>;
}

/** |got - wanted| within `relative` of the wanted value, or of `floor` for values near zero. */
export const near = (got: number, wanted: number, relative: number, floor = 0): boolean =>
  Math.abs(got - wanted) <= relative * Math.max(Math.abs(wanted), floor);
