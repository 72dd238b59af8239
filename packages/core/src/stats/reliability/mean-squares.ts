import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf } from '../../signal/index.ts';
import { fisherF } from '../distributions/index.ts';
import { completeRows, type Table } from '../table.ts';

/** Sums of squares, their degrees of freedom and mean squares of people by occasions, every value there. */
export interface MeanSquares {
  readonly people: number;
  readonly occasions: number;
  /** Rows of the table that had a hole and were left out. */
  readonly leftOut: readonly number[];
  readonly mean: number;
  readonly between: Square;
  readonly occasion: Square;
  readonly within: Square;
  readonly error: Square;
  readonly total: Pick<Square, 'sum' | 'df'>;
  /** Test of people: between / within, and between / error. */
  readonly oneWay: FTest;
  readonly twoWay: FTest;
  /** Test of a shift from occasion to occasion: occasion / error. */
  readonly shift: FTest;
}

export interface Square {
  readonly sum: number;
  readonly df: number;
  readonly mean: number;
}

export interface FTest {
  readonly f: number;
  readonly df: readonly [number, number];
  readonly p: number;
}

/**
 * Mean squares of n people (rows) on k occasions (columns); rows with a hole are left out and named.
 *
 * SS between = k sum (row mean - mean)^2, df n-1; SS occasion = n sum (column mean - mean)^2, df k-1; SS within = SS total - SS
 * between, df n(k-1); SS error = SS within - SS occasion, df (n-1)(k-1); computed from residuals, so that a large common value
 * costs no digits.
 *
 * @returns `too-few-values` under two complete people or two occasions
 * Source: Shrout & Fleiss 1979, Psychol Bull 86:420-428.
 */
export function meanSquares(table: Table): Outcome<MeanSquares> {
  const { rows, leftOut, occasions: k } = completeRows(table);
  const n = rows.length;
  if (n < 2 || k < 2) return lack('too-few-values');
  const rowMeans = rows.map((row) => meanOf(row));
  const columnMeans = Array.from({ length: k }, (_, j) => meanOf(rows.map((row) => row[j] as number)));
  const mean = meanOf(rowMeans);
  let between = 0;
  let occasion = 0;
  let within = 0;
  let error = 0;
  for (const [i, row] of rows.entries()) {
    const rowMean = rowMeans[i] as number;
    between += k * (rowMean - mean) ** 2;
    for (const [j, value] of row.entries()) {
      within += (value - rowMean) ** 2;
      error += (value - rowMean - (columnMeans[j] as number) + mean) ** 2;
    }
  }
  for (const columnMean of columnMeans) occasion += n * (columnMean - mean) ** 2;
  const square = (sum: number, df: number): Square => ({ sum, df, mean: sum / df });
  const squares = {
    between: square(between, n - 1),
    occasion: square(occasion, k - 1),
    within: square(within, n * (k - 1)),
    error: square(error, (n - 1) * (k - 1)),
  };
  return have({
    ...{ people: n, occasions: k, leftOut, mean },
    ...squares,
    total: { sum: between + within, df: n * k - 1 },
    oneWay: ratio(squares.between, squares.within),
    twoWay: ratio(squares.between, squares.error),
    shift: ratio(squares.occasion, squares.error),
  });
}

function ratio(one: Square, other: Square): FTest {
  const f = one.mean / other.mean;
  return { f, df: [one.df, other.df], p: fisherF.above(f, one.df, other.df) };
}
