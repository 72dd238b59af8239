import { numberText, quantityText } from '../../number/format.ts';

/** A height in centimetres, a time on the ground in milliseconds: as they are said at the plates. */
const shown: Readonly<Record<string, { readonly unit: string; readonly times: number; readonly decimals: number }>> = {
  m: { unit: 'cm', times: 100, decimals: 1 },
  s: { unit: 'ms', times: 1000, decimals: 0 },
  'm/s': { unit: 'm/s', times: 1, decimals: 2 },
};

/** A value of a verdict as it is said at the plates. */
export function valueText(value: number, unit: string): string {
  const { unit: name, times, decimals } = shown[unit] ?? { unit, times: 1, decimals: undefined };
  return decimals === undefined
    ? quantityText(value, unit, { sampleRate: 1000 })
    : `${numberText(times * value, decimals)}\u00a0${name}`;
}

/** A difference of two such values. */
export function amountText(value: number, unit: string): string {
  return shown[unit] === undefined ? `${numberText(value, 0)}\u00a0${unit}` : valueText(value, unit);
}
