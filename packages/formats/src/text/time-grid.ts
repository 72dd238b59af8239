import type { Notice, SampleSpan } from '@sthene/core';
import type { TextTime } from './description.ts';
import { textNotice } from './errors.ts';

/** From `row` on, sample = row + offset. */
export interface GridShift {
  readonly row: number;
  readonly offset: number;
}

/** Values all time leaps may add beyond ten times the rows read: a time cell promises memory, and is not believed. */
const LEAP_VALUES = 1_000_000;

/**
 * Follows a time column row by row and tells where the even grid is left: skipped samples, repeated and backward times.
 * Memory grows with the number of irregular places only.
 */
export class TimeGrid {
  readonly shifts: GridShift[] = [];
  /** Rows whose time repeats the one before. */
  readonly repeated: number[] = [];
  readonly gaps: SampleSpan[] = [];
  rows = 0;
  first = Number.NaN;
  last = Number.NaN;
  missing = 0;
  skipped = 0;
  /** Why following ended, where it did: the row was not used. */
  stopped: Notice | undefined;
  /** File row of the first irregular place of each kind, 0 for none. */
  firstSkipRow = 0;
  firstRepeatRow = 0;
  /** Rows that came closer than half a step without repeating a time. */
  jitter = 0;
  private leading = 0;
  private offset = 0;
  private previous = Number.NaN;
  private readonly step: number;
  private readonly upper: number;
  /** The written digits cannot tell neighbouring rows apart. */
  readonly coarse: boolean;

  private readonly leapSamples: number;

  /** @param columns number of channels that share the axis */
  constructor(time: TextTime, columns: number) {
    this.leapSamples = LEAP_VALUES / Math.max(1, columns);
    this.step = time.step;
    // Rounded times blur the steps unless the step is a whole number of the smallest written differences.
    const ratio = time.step / time.resolution;
    const exact = Math.abs(ratio - Math.round(ratio)) < 0.001 * ratio && ratio > 0.5;
    const blur = exact || ratio > 10 ? 0 : Math.min(time.resolution, time.step) + 0.1 * time.step;
    this.upper = time.step + Math.max(0.5 * time.step, blur);
    this.coarse = ratio < 0.95;
  }

  /** Samples on the grid so far. */
  get samples(): number {
    return this.rows + this.offset;
  }

  /**
   * Takes the times of the next rows.
   * @returns how many rows were taken; fewer than `count` when the times turn back or leap too far (`stopped` says so)
   */
  take(times: Float64Array, fileRows: Float64Array, count: number): number {
    for (let i = 0; i < count; i++) {
      const time = times[i]!;
      const step = time - this.previous;
      if (step > 0.5 * this.step && step <= this.upper) {
        this.previous = time;
        this.rows++;
        continue;
      }
      if (!this.odd(time, step, fileRows[i]!)) return i;
    }
    this.last = this.previous;
    return count;
  }

  private odd(time: number, step: number, fileRow: number): boolean {
    if (Number.isNaN(time)) {
      // A row without a time follows the one before.
      this.missing++;
      if (!Number.isNaN(this.first)) this.previous += this.step;
      else this.leading++;
      this.rows++;
      return true;
    }
    if (Number.isNaN(this.first)) {
      this.first = time - this.leading * this.step;
      this.previous = time;
      this.last = time;
      this.rows++;
      return true;
    }
    if (step > this.upper) return this.skip(time, step, fileRow);
    if (step < 0 && !(this.coarse && step === 0)) {
      this.last = this.previous;
      this.stopped = textNotice(
        'text-time-backward',
        `Row ${fileRow}: the time turns back from ${this.previous} to ${time}; reading ended before this row.`,
      );
      return false;
    }
    if (step === 0 && !this.coarse) {
      if (this.firstRepeatRow === 0) this.firstRepeatRow = fileRow;
      this.repeated.push(this.rows);
      this.rows++;
      this.offset--;
      this.shifts.push({ row: this.rows, offset: this.offset });
      return true;
    }
    // Closer than half a step without repeating: jitter, the row keeps its own sample.
    this.jitter++;
    this.previous = time;
    this.rows++;
    return true;
  }

  private skip(time: number, step: number, fileRow: number): boolean {
    const missing = Math.round(step / this.step) - 1;
    if (!(this.skipped + missing <= 10 * this.rows + this.leapSamples)) {
      this.last = this.previous;
      this.stopped = textNotice(
        'text-time-leap',
        `Row ${fileRow}: the time leaps from ${this.previous} to ${time}; reading ended before this row.`,
      );
      return false;
    }
    if (missing > 0) {
      if (this.firstSkipRow === 0) this.firstSkipRow = fileRow;
      const start = this.samples;
      this.gaps.push({ start, end: start + missing });
      this.offset += missing;
      this.skipped += missing;
      this.shifts.push({ row: this.rows, offset: this.offset });
    }
    this.previous = time;
    this.rows++;
    return true;
  }

  /**
   * True when the irregular places are so many that the times, not the samples, must be uneven: then rows are taken as
   * evenly spaced. A clock of the computer that wrote the file gives such times.
   */
  get uneven(): boolean {
    const early = this.repeated.length + this.jitter;
    const odd = early + this.gaps.length;
    // Lost samples are never made up for by rows that come early; late rows are.
    return this.rows > 20 && odd > 0.02 * this.rows && early >= 0.3 * this.gaps.length && this.balanced;
  }

  private get balanced(): boolean {
    const even = (this.rows - 1) * this.step;
    return Math.abs(this.last - this.first - even) < 0.2 * even;
  }
}
