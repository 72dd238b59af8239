import type { TrialView } from '@sthene/contract';
import { decimalsFor, numberText, quantityText, type Resolution } from '../../number/format.ts';

export type Result = TrialView['result'];
export type Measured = Result['metrics'][string];
export type CheckResult = Result['checks'][string];

/** What the recording supports in digits. */
export function resolutionOf(result: Result): Resolution {
  const baseline = result.events?.baseline;
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
