import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf, sdOf } from '../../signal/index.ts';
import type { Scale } from '../follow/index.ts';
import { type Estimate, usualLevel } from '../interval.ts';
import { mixedModel } from '../mixed/index.ts';
import {
  coefficientOfVariation,
  detectableAt,
  detectableChange,
  type ErrorOfTest,
  familiarisation,
  type IccForm,
  icc,
  iccForms,
  learningSteps,
  type MeanSquares,
  meanSquares,
  type Step,
  typicalErrorInterval,
  type Usefulness,
  usefulness,
  worthwhileChange,
} from '../reliability/index.ts';
import { completeRows, inLogs, type Table } from '../table.ts';

/** Everything a paper prints of a test's reliability, from people (rows) on occasions (columns). */
export interface ReliabilityStudy {
  /** `log`: errors, changes and correlations are of 100 ln x. */
  readonly scale: Scale;
  readonly level: number;
  /** People with at least one value, and those with all. */
  readonly people: number;
  readonly complete: number;
  /** Positions of the rows with a hole. */
  readonly leftOut: readonly number[];
  readonly values: number;
  /** Of each occasion, in the unit of the table. */
  readonly occasions: readonly {
    readonly n: number;
    readonly mean: number | undefined;
    readonly sd: number | undefined;
  }[];
  /** From the complete rows. */
  readonly squares: MeanSquares;
  readonly correlations: Readonly<Record<IccForm, Outcome<Estimate>>>;
  readonly error: ErrorOfTest & { readonly interval: Estimate };
  /** In per cent, on the log scale alone. */
  readonly cv: Estimate | undefined;
  readonly detectable: { readonly 95: number; readonly 90: number };
  readonly worthwhile: Outcome<number>;
  readonly usefulness: Usefulness | undefined;
  readonly steps: readonly Step[];
  /** Leading occasions to keep out; undefined where the last step still shifts. */
  readonly familiarisation: number | undefined;
  /** By restricted likelihood over all values, where rows have holes. */
  readonly all: Outcome<{ readonly error: ErrorOfTest; readonly interval: Estimate; readonly icc: number }> | undefined;
  /** Fewer than ten complete people: provisional. */
  readonly small: boolean;
}

/** Fewer people than this are few (Hopkins 2000 asks for about 50). */
export const fewPeople = 10;

/**
 * A reliability study. Mean squares, correlations and errors come from the complete rows; where rows have holes, error and ICC(3,1) are
 * given once more from all values by a mixed model with occasions as fixed effects.
 *
 * @returns `too-few-values` under two complete rows or two columns; `not-positive` on the log scale with a value of zero or less
 */
export function reliabilityStudy(table: Table, scale: Scale, level = usualLevel): Outcome<ReliabilityStudy> {
  const logs = scale === 'log' ? inLogs(table) : have(table);
  if (!logs.ok) return logs;
  const squares = meanSquares(logs.value);
  if (!squares.ok) return squares;
  const { leftOut, rows } = completeRows(logs.value);
  const values = table.flat().filter((value) => value !== null).length;
  const error = { value: Math.sqrt(squares.value.error.mean), df: squares.value.error.df };
  const interval = typicalErrorInterval(error, level);
  const steps = learningSteps(logs.value, level);
  // The spread of one test each: the mean variance of the occasions.
  const columns = Array.from({ length: squares.value.occasions }, (_, j) => rows.map((row) => row[j] as number));
  const spread = Math.sqrt(meanOf(columns.map((column) => sdOf(column) ** 2)));
  const worthwhile = worthwhileChange(spread, error.value);
  return have({
    ...{ scale, level, values, leftOut, steps },
    people: table.filter((row) => row.some((value) => value !== null)).length,
    complete: rows.length,
    occasions: occasionsOf(table),
    squares: squares.value,
    correlations: correlationsOf(squares.value, level),
    error: { ...error, interval },
    cv: scale === 'log' ? coefficientOfVariation(interval) : undefined,
    detectable: {
      95: detectableChange(error.value, detectableAt[95]),
      90: detectableChange(error.value, detectableAt[90]),
    },
    worthwhile,
    usefulness: worthwhile.ok ? usefulness(error.value, worthwhile.value) : undefined,
    familiarisation: familiarisation(steps),
    all: leftOut.length === 0 ? undefined : fromAll(logs.value, level),
    small: rows.length < fewPeople,
  });
}

function occasionsOf(table: Table): ReliabilityStudy['occasions'] {
  return Array.from({ length: table[0]?.length ?? 0 }, (_, j) => {
    const column = table.flatMap((row) => row[j] ?? []);
    return {
      n: column.length,
      mean: column.length === 0 ? undefined : meanOf(column),
      sd: column.length < 2 ? undefined : sdOf(column),
    };
  });
}

function correlationsOf(squares: MeanSquares, level: number): ReliabilityStudy['correlations'] {
  const forms = Object.keys(iccForms) as IccForm[];
  return Object.fromEntries(forms.map((form) => [form, icc(squares, form, level)])) as ReliabilityStudy['correlations'];
}

function fromAll(table: Table, level: number): NonNullable<ReliabilityStudy['all']> {
  const long = table.flatMap((row, i) =>
    row.flatMap((value, j) => (value === null ? [] : [{ value, person: String(i), j }])),
  );
  const occasions = [...new Set(long.map(({ j }) => j))].sort((a, b) => a - b).slice(1);
  const model = mixedModel(
    {
      y: long.map(({ value }) => value),
      person: long.map(({ person }) => person),
      fixed: occasions.map((j) => ({ name: `occasion ${j + 1}`, values: long.map((one) => (one.j === j ? 1 : 0)) })),
      random: { kind: 'person' },
    },
    level,
  );
  if (!model.ok) return model;
  const { residual, icc: correlation } = model.value;
  if (correlation === undefined) return lack('no-fit');
  return have({ error: residual, interval: typicalErrorInterval(residual, level), icc: correlation });
}
