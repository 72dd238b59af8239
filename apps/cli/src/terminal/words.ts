import { type Outcome, reasons } from '@sthene/core';
import type { Estimate } from '@sthene/core/stats';

/** A number with as many digits as mean something beside others of its kind. */
export const digits = (value: number, decimals = 3): string => value.toFixed(decimals);

/** "0.950 (0.787 to 0.990)" */
export const withInterval = ({ value, low, high }: Estimate, decimals = 3): string =>
  `${digits(value, decimals)} (${digits(low, decimals)} to ${digits(high, decimals)})`;

/** A value as said, or why there is none. */
export const orReason = <T>(outcome: Outcome<T>, say: (value: T) => string): string =>
  outcome.ok ? say(outcome.value) : `none: ${reasons[outcome.reason].means}`;

/** Lines of names and what is said of them, in two columns; text too long for the first column stands over the second. */
export function lines(pairs: readonly (readonly [name: string, said: string])[]): string {
  const width = Math.max(...pairs.map(([name]) => name.length));
  return pairs.map(([name, said]) => `${name.padEnd(width)}  ${said}\n`).join('');
}

export const percentOf = (level: number): string => `${Math.round(1000 * level) / 10} %`;
