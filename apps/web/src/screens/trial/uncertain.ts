import type { TrialUncertainty, UncertaintyOfValue } from '@sthene/contract';
import { numberText } from '../../number/format.ts';

type One = TrialUncertainty['metrics'][string];

export const isUncertainty = (one: One | undefined): one is UncertaintyOfValue =>
  one !== undefined && 'standard' in one;

/**
 * `\u00b1 x` at the precision of the value, with a digit more where that would be nothing, and a plus behind it where parts are not known and
 * it may be more; undefined where nothing is known.
 */
export function plusMinusText(one: One | undefined, decimals: number): string | undefined {
  if (!isUncertainty(one)) return undefined;
  return `\u00b1\u202f${sizeText(one.expanded, decimals)}${one.unknown.length > 0 ? '+' : ''}`;
}

/** A size at the precision of the value, or with enough decimals to show its first digit. */
export function sizeText(size: number, decimals: number): string {
  if (size === 0 || Number(size.toFixed(decimals)) !== 0) return numberText(size, decimals);
  return numberText(size, Math.min(6, Math.ceil(-Math.log10(size))));
}

/** Share of each part in the square of the whole, 0 to 1. */
export const shareOf = ({ standard }: { readonly standard: number }, whole: { readonly standard: number }): number =>
  whole.standard === 0 ? 0 : (standard / whole.standard) ** 2;
