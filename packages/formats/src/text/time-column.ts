import { clockSeconds } from './cells.ts';
import { numberOf } from './number.ts';
import type { TextRecord } from './records.ts';
import { secondsIn } from './unit-names.ts';

/** A column as far as it matters for finding the time axis. */
export interface Candidate {
  readonly index: number;
  readonly name: string;
  readonly header: string;
  readonly unit: string;
  readonly kind: string;
}

/** The time axis found, or none; `reason` is a sentence for people. */
export interface FoundTime {
  readonly index: number;
  readonly role: 'time' | 'counter';
  /** UCUM time unit; '' for a counter. */
  readonly unit: string;
  readonly guessed: boolean;
  readonly step: number;
  readonly resolution: number;
  readonly reason: string;
}

const TIME_NAME =
  /^(?:time|zeit|temps|tiempo|tempo|tijd|tid|elapsed|timestamp|t)(?:$|[\s_.\-([/:])|(?:^|[\s_.-])time$/i;
const COUNTER_NAME =
  /^(?:frame|sample|index|row|nr|no|number|count|counter|#|n)(?:s|[\s_.-]*(?:no|nr|number|index|count|#))?\.?$/i;

/**
 * Finds the time axis: by the name or unit of a column, else a first column that rises evenly.
 *
 * @param rows data records of the head
 * @param named true when the file has column names
 */
export function findTime(
  columns: readonly Candidate[],
  rows: readonly TextRecord[],
  decimal: '.' | ',',
  named: boolean,
): FoundTime | undefined {
  const numeric = columns.filter((column) => column.kind === 'number' || column.kind === 'clock');
  if (columns.length < 2 || numeric.length < 1) return undefined;
  const byName = numeric.find((column) => TIME_NAME.test(column.name) || TIME_NAME.test(column.header));
  const first = columns[0]!;
  const byUnit = secondsIn(first.unit) === undefined ? undefined : first;
  const clock = columns.find((column) => column.kind === 'clock');
  const chosen = byName ?? byUnit ?? clock;
  if (chosen !== undefined)
    return timeOf(chosen, rows, decimal, `Column ${chosen.index + 1} is the time, by its name or unit.`);
  const steps = stepsOf(first, rows, decimal);
  if (first.kind !== 'number' || !steps.even || steps.count < 3) return undefined;
  if (COUNTER_NAME.test(first.name) || (!named && steps.step === 1)) return counterOf(first, steps);
  if (named && (steps.count < 9 || !steps.precise)) return undefined;
  return timeOf(first, rows, decimal, 'Column 1 rises in even steps, so it is taken as the time.');
}

/** The time axis a person named. */
export function namedTime(column: Candidate, rows: readonly TextRecord[], decimal: '.' | ','): FoundTime {
  if (column.kind === 'number' && COUNTER_NAME.test(column.name))
    return counterOf(column, stepsOf(column, rows, decimal));
  return timeOf(column, rows, decimal, `Column ${column.index + 1} was named as the time.`);
}

function counterOf(column: Candidate, steps: Steps): FoundTime {
  const reason = `Column ${column.index + 1} counts samples.`;
  return { index: column.index, role: 'counter', unit: '', guessed: false, step: steps.step, resolution: 0, reason };
}

function timeOf(column: Candidate, rows: readonly TextRecord[], decimal: '.' | ',', reason: string): FoundTime {
  const { step, resolution } = stepsOf(column, rows, decimal);
  const known = column.kind === 'clock' ? 's' : secondsIn(column.unit) === undefined ? undefined : column.unit;
  // Force is sampled between about 5 Hz and 20 kHz: the size of the step tells seconds, milliseconds and microseconds apart.
  const unit = known ?? (step < 0.2 ? 's' : step < 50 ? 'ms' : 'us');
  const guessed = known === undefined && unit !== 's';
  return { index: column.index, role: 'time', unit, guessed, step, resolution, reason };
}

interface Steps {
  readonly step: number;
  readonly count: number;
  /** Rising, and 95 % of the steps within 2 % (or the written resolution) of their mean. */
  readonly even: boolean;
  /** Every step within a ten-thousandth or the written resolution. */
  readonly precise: boolean;
  readonly resolution: number;
}

/** Mean step of the head (steps over skipped samples left out) and the resolution of its digits. */
function stepsOf(column: Candidate, rows: readonly TextRecord[], decimal: '.' | ','): Steps {
  const values: number[] = [];
  let digits = 0;
  for (const row of rows) {
    const cell = row.cells[column.index] ?? '';
    const value = column.kind === 'clock' ? clockSeconds(cell) : numberOf(cell, decimal);
    if (value === undefined) continue;
    values.push(value);
    digits = Math.max(digits, fractionDigits(cell));
  }
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  const rising = steps.filter((step) => step > 0).sort((a, b) => a - b);
  const median = rising[Math.floor(rising.length / 2)] ?? 0;
  const longest = (longStepsAreRounding(steps, median) ? 2.5 : 1.5) * median;
  const usual = steps.filter((s) => s >= 0 && s <= longest);
  const step = usual.length === 0 ? 0 : usual.reduce((sum, value) => sum + value, 0) / usual.length;
  const resolution = 10 ** -digits;
  const rounding = resolution * 1.01 + 1e-9 * Math.abs(values.at(-1) ?? 0);
  const near = (share: number) =>
    steps.filter((s) => s > 0 && Math.abs(s - step) <= Math.max(share * step, rounding)).length;
  return {
    step,
    count: steps.length,
    resolution,
    even: step > 0 && near(0.02) >= 0.95 * steps.length,
    precise: near(1e-4) === steps.length,
  };
}

function fractionDigits(cell: string): number {
  const match = /[.,](\d+)(?:[eE]([+-]?\d+))?\s*Z?$/.exec(cell.trim());
  return match === null ? 0 : Math.max(0, match[1]!.length - Number(match[2] ?? 0));
}

/**
 * Rounded times have longer steps too (900 Hz in whole milliseconds: every ninth step is 2 ms). They come often or regularly;
 * skipped samples come seldom and at random.
 */
function longStepsAreRounding(steps: readonly number[], median: number): boolean {
  const long = steps.flatMap((step, i) => (step > 1.4 * median ? [i] : []));
  if (long.length === 0 || long.length > 0.05 * steps.length) return true;
  const distances = long.slice(1).map((at, i) => at - long[i]!);
  return distances.length >= 2 && Math.max(...distances) - Math.min(...distances) <= 1;
}
