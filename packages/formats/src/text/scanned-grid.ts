import { type Notice, type RateOrigin, rateOfTimes, type SampleSpan } from '@sthene/core';
import type { FormatError } from '../format-error.ts';
import type { TextDescription } from './description.ts';
import { textError, textNotice } from './errors.ts';
import { declaredRate } from './facts.ts';
import type { TextOptions } from './options.ts';
import type { GridShift, TimeGrid } from './time-grid.ts';

/** The time axis after the whole file was seen. */
export interface ScannedGrid {
  readonly sampleRate: number;
  readonly rateOrigin: RateOrigin;
  readonly measuredRate?: number;
  /** Samples on the grid, gaps included. */
  readonly samples: number;
  /** Runs of samples whose rows are not in the file. */
  readonly gaps: readonly SampleSpan[];
  readonly shifts: readonly GridShift[];
  /** Rows left out because they repeat a time. */
  readonly repeated: readonly number[];
}

type Closed =
  | { readonly ok: true; readonly grid?: ScannedGrid; readonly notices: readonly Notice[] }
  | { readonly ok: false; readonly error: FormatError };

/**
 * Rate and gaps of a scanned file. With times: (N - 1) / (t_last - t_first) over the grid, snapped as the core does. Without:
 * the given rate, else the one the preamble declares; no grid when there is neither.
 */
export function closeGrid(
  description: TextDescription,
  grid: TimeGrid | undefined,
  rows: number,
  rowsAfter: number,
  options: TextOptions,
): Closed {
  const declared = options.rate ?? declaredRate(description.facts, description.decimal);
  const origin: RateOrigin = options.rate === undefined ? 'declared' : 'given';
  const { time } = description;
  const even = { samples: rows, gaps: [], shifts: [], repeated: [] };
  if (time === undefined) {
    return {
      ok: true,
      notices: [],
      ...(declared === undefined ? {} : { grid: { ...even, sampleRate: declared, rateOrigin: origin } }),
    };
  }
  const counter = description.columns[time.column - 1]?.role === 'counter';
  if (grid === undefined || (grid.stopped !== undefined && rows < 2)) {
    if (rows === 1 && rowsAfter === 0) {
      return {
        ok: true,
        notices: [],
        ...(declared === undefined ? {} : { grid: { ...even, sampleRate: declared, rateOrigin: origin } }),
      };
    }
    return { ok: false, error: notRising(description, grid) };
  }
  const notices: Notice[] = gridNotices(grid, rowsAfter);
  const layout =
    grid.uneven || grid.coarse
      ? even
      : { samples: grid.samples, gaps: grid.gaps, shifts: grid.shifts, repeated: grid.repeated };
  if (counter) {
    return {
      ok: true,
      notices,
      ...(declared === undefined ? {} : { grid: { ...layout, sampleRate: declared, rateOrigin: origin } }),
    };
  }
  const seconds = time.secondsPerUnit ?? 1;
  const rate = rateOfTimes(layout.samples, grid.first * seconds, grid.last * seconds, declared);
  if (!rate.ok) {
    if (layout.samples === 1 && declared !== undefined) {
      return { ok: true, notices, grid: { ...layout, sampleRate: declared, rateOrigin: origin } };
    }
    return { ok: false, error: notRising(description, grid) };
  }
  const { sampleRate, measuredRate, rateOrigin } = rate.value;
  return {
    ok: true,
    notices: [...notices, ...rate.value.notices],
    grid: { ...layout, sampleRate, measuredRate, rateOrigin },
  };
}

function gridNotices(grid: TimeGrid, rowsAfter: number): Notice[] {
  const notices: Notice[] = [];
  if (grid.stopped !== undefined) {
    const left = rowsAfter === 1 ? '1 row was not read.' : `${rowsAfter} rows were not read.`;
    notices.push({ code: grid.stopped.code, message: `${grid.stopped.message} ${left}` });
  }
  if (grid.missing > 0) {
    notices.push(
      textNotice('text-time-missing', `${grid.missing} rows have no time; each is taken to follow the one before.`),
    );
  }
  if (grid.coarse) {
    notices.push(
      textNotice(
        'text-time-coarse',
        'The time is written with too few digits to tell neighbouring rows apart; rows are taken as evenly spaced.',
      ),
    );
    return notices;
  }
  if (grid.uneven && !grid.coarse) {
    notices.push(
      textNotice('text-time-uneven', 'The times are uneven; rows are taken as evenly spaced at their mean rate.'),
    );
    return notices;
  }
  if (grid.gaps.length > 0) {
    const where = `${grid.gaps.length === 1 ? 'once' : `${grid.gaps.length} times`}, first at row ${grid.firstSkipRow}`;
    notices.push(
      textNotice('text-time-skips', `The time skips ${where}; ${grid.skipped} samples are missing and stay gaps.`),
    );
  }
  if (grid.repeated.length > 0) {
    notices.push(
      textNotice(
        'text-time-repeated',
        `${grid.repeated.length} rows, the first in row ${grid.firstRepeatRow}, repeat the time of the row before; they were left out.`,
      ),
    );
  }
  return notices;
}

function notRising(description: TextDescription, grid: TimeGrid | undefined): FormatError {
  const { time, columns, dataRow } = description;
  const column = columns[(time?.column ?? 1) - 1];
  return textError('text-time-not-increasing', `The times in column ${time?.column} (${column?.name}) do not rise.`, {
    expected: 'times that rise from row to row',
    found: grid?.stopped?.message ?? (column?.examples.slice(0, 3).join(', ') || 'no times'),
    at: { row: dataRow, column: time?.column ?? 1 },
  });
}
