import type { Outcome } from '../outcome.ts';
import { type CalibrationLine, calibrationLine } from './calibration-line.ts';

/** A pull held still, read from the plates and from a load cell in its line. */
export interface CellPair {
  /** Change of the plates' total from standing, N. */
  readonly plates: number;
  /** What the reference cell showed, N. */
  readonly cell: number;
}

/** How the plates follow a reference load cell. */
export interface CellFigures {
  readonly line: CalibrationLine;
  readonly pairs: readonly (CellPair & { readonly error: number; readonly relativeError?: number })[];
  /** Largest force of the cell, N. */
  readonly largest: number;
}

/**
 * Further check with a cell between bar and floor or rack: a held pull presses the plates by what the cell carries. The line is that
 * of plates on cell, as with masses.
 *
 * @returns `too-few-values`, `no-spread` as of the line
 */
export function cellFigures(pairs: readonly CellPair[]): Outcome<CellFigures> {
  const line = calibrationLine(
    pairs.map(({ cell }) => cell),
    pairs.map(({ plates }) => plates),
  );
  if (!line.ok) return line;
  return {
    ok: true,
    value: {
      line: line.value,
      pairs: pairs.map((pair) => {
        const error = pair.plates - pair.cell;
        return { ...pair, error, ...(pair.cell === 0 ? {} : { relativeError: (100 * error) / pair.cell }) };
      }),
      largest: Math.max(...pairs.map(({ cell }) => cell)),
    },
  };
}
