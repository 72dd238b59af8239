import type { TrialUncertainty, UncertaintyOfValue } from '@sthene/contract';
import { numberText } from '../../number/format.ts';

type One = TrialUncertainty['metrics'][string];

export const isUncertainty = (one: One | undefined): one is UncertaintyOfValue =>
  one !== undefined && 'standard' in one;

/**
 * `\u00b1 x` at the precision of the value, with one digit more where that would be nothing; undefined where it is not known. An unknown
 * part that would be in the number is said when the value is opened.
 */
export function plusMinusText(one: One | undefined, decimals: number): string | undefined {
  return isUncertainty(one) ? `\u00b1\u202f${sizeText(one.expanded, decimals)}` : undefined;
}

/** A size at the precision of the value, or with enough decimals to show its first digit. */
export function sizeText(size: number, decimals: number): string {
  if (size === 0 || Number(size.toFixed(decimals)) !== 0) return numberText(size, decimals);
  return numberText(size, Math.min(6, Math.ceil(-Math.log10(size))));
}

/** Share of each part in the square of the whole, 0 to 1. */
export const shareOf = ({ standard }: { readonly standard: number }, whole: { readonly standard: number }): number =>
  whole.standard === 0 ? 0 : (standard / whole.standard) ** 2;
