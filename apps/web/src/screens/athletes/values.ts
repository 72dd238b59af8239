import type { AthleteView } from '@sthene/contract';
import { numberText, quantityText, signedText } from '../../number/format.ts';

/** A mean over trials carries no more digits than a newton. */
const resolution = { sampleRate: 1000, noise: 1 };

/** A value of the metric with its unit. */
export const valueText = (value: number, unit: string): string => quantityText(value, unit, resolution);

/** A value at a tick: its axis says the unit. */
export const tickText = (value: number, unit: string): string =>
  value === 0 ? '0' : (valueText(value, unit).split('\u00a0')[0] ?? '');

/** A difference with its sign and unit. */
export function differenceText(value: number, unit: string): string {
  const text = valueText(Math.abs(value), unit);
  return value < 0 ? `\u2212${text}` : value > 0 ? `+${text}` : text;
}

/** An error or a worthwhile change on the scale it is judged on: per cent for logs. */
export function scaleText(value: number, { scale, metric }: Pick<AthleteView, 'scale' | 'metric'>): string {
  return scale === 'log' ? `${numberText(100 * Math.expm1(value / 100), 1)}\u00a0%` : valueText(value, metric.unit);
}

export const percentText = (value: number): string => `${signedText(value, 1)}\u00a0%`;
/** A probability in whole per cent, never as certain as 0 or 100. */
export function shareText(share: number): string {
  const percent = share > 0.99 ? '>99' : share < 0.01 ? '<1' : numberText(100 * share, 0);
  return `${percent}\u00a0%`;
}
