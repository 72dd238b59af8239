import { decimalsFor, numberText, unitText } from '../../number/format.ts';

/** A ratio as people read it: an index by two decimals, a share in per cent by one. */
export const ratioText = (value: number, unit: string): string =>
  unit === '%' ? `${numberText(value, 1)}\u00a0%` : numberText(value, 2);

/** An error with the decimals of its value. */
export const errorText = (error: number, value: number, unit: string): string =>
  `±\u202f${numberText(error, decimalsFor(unit, value, { sampleRate: 1000, noise: 1 }))}\u00a0${unitText(unit)}`;
