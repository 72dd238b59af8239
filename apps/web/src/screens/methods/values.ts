import type { ComparedMetric } from '@sthene/contract';
import { numberText, signedText } from '../../number/format.ts';
import { differenceText, valueText } from '../athletes/values.ts';

type Scaled = Pick<ComparedMetric, 'scale' | 'unit'>;

/** A difference on the scale it was compared on, as people read it: per cent for logs, else in the unit. */
export const comparedText = (difference: number, { scale, unit }: Scaled): string =>
  scale === 'log'
    ? `${signedText(percentOf(difference), percentDecimals(difference))}\u00a0%`
    : differenceText(difference, unit);

/** 100 ln x as per cent. */
export const percentOf = (difference: number): number => 100 * Math.expm1(difference / 100);

const percentDecimals = (difference: number): number => (Math.abs(percentOf(difference)) >= 100 ? 0 : 1);

export const meanText = (value: number, unit: string): string => valueText(value, unit);

/** A slope or an intercept. */
export const factorText = (value: number): string => numberText(value, Math.abs(value) < 10 ? 3 : 1);

/** Seconds in words, as short as they may be. */
export function timeText(seconds: number): string {
  if (seconds < 90) return `${Math.max(1, Math.round(seconds))}\u00a0s`;
  const minutes = seconds / 60;
  return minutes < 90 ? `${Math.round(minutes)}\u00a0min` : `${numberText(minutes / 60, 1)}\u00a0h`;
}
