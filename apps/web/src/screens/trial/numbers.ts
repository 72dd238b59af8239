import type { TrialView } from '@sthene/contract';
import { decimalsFor, numberText, quantityText, type Resolution, unitText } from '../../number/format.ts';

export type Result = TrialView['result'];
export type Measured = Result['metrics'][string];
export type CheckResult = Result['checks'][string];

/** What the recording supports in digits. */
export function resolutionOf(result: Result): Resolution {
  const baseline = result.jump?.weighing ?? result.events?.baseline;
  return { sampleRate: result.sampleRate, ...(baseline?.ok ? { noise: baseline.value.sd } : {}) };
}

/** Seconds of a sample, as many decimals as the rate supports. */
export const secondsText = (sample: number, rate: number): string =>
  numberText(sample / rate, decimalsFor('s', 0, { sampleRate: rate }));

/** Writes quantities of one trial. */
export const writerOf = (result: Result) => (value: number, unit: string) =>
  quantityText(value, unit, resolutionOf(result));

/** The onset in force, or undefined. */
export const onsetOf = (result: Result) => (result.onset.ok ? result.onset.value : undefined);

/** Value and limit of a check: short times in milliseconds, limits without needless zeros. */
export function checkQuantities(result: Result, check: CheckResult): { value?: string; limit?: string } {
  const small = check.unit === 's' && Math.max(Math.abs(check.value ?? 0), Math.abs(check.limit ?? 0)) < 0.5;
  const unit = small ? 'ms' : check.unit;
  const gain = small ? 1000 : 1;
  const write = writerOf(result);
  const tail = unitText(unit) === '' ? '' : `\u00a0${unitText(unit)}`;
  return {
    ...(check.value === undefined ? {} : { value: write(check.value * gain, unit) }),
    ...(check.limit === undefined
      ? {}
      : { limit: `${String(Number((check.limit * gain).toPrecision(4))).replace('-', '\u2212')}${tail}` }),
  };
}
