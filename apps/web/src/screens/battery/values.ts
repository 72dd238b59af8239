import { numberText } from '../../number/format.ts';
import { valueText } from '../athletes/values.ts';

/** A ratio as people read it: an index by two decimals, a share in per cent by one. */
export const ratioText = (value: number, unit: string): string =>
  unit === '%' ? `${numberText(value, 1)}\u00a0%` : numberText(value, 2);

/** An error beside a value, in as few digits as mean something. */
export const errorText = (error: number, unit: string): string =>
  unit === 'm' ? `±\u202f${numberText(error, 3)}\u00a0m` : `±\u202f${valueText(error, unit)}`;
