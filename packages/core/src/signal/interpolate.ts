import type { Samples } from './statistics.ts';

/**
 * Value at a fractional sample position by linear interpolation between the two samples around it.
 * A whole position gives the sample itself. Throws RangeError outside [0, length - 1].
 */
export function valueAt(array: Samples, position: number): number {
  if (!(position >= 0 && position <= array.length - 1)) {
    throw new RangeError(`Position ${position} lies outside the ${array.length} samples.`);
  }
  const low = Math.floor(position);
  const share = position - low;
  const value = array[low] as number;
  return share === 0 ? value : value + share * ((array[low + 1] as number) - value);
}
