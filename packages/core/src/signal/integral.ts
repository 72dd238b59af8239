import { valueAt } from './interpolate.ts';
import type { Samples } from './statistics.ts';

/**
 * Trapezoidal integral of an array from one (fractional) sample position to another, in value times samples: divide by the
 * sample rate for value times seconds. Ends between samples are interpolated. 0 for an empty interval.
 * Throws RangeError when the interval leaves the samples or runs backward.
 */
export function trapezoid(array: Samples, from: number, to: number): number {
  if (!(to >= from)) throw new RangeError(`An integral from ${from} to ${to} runs backward.`);
  const firstWhole = Math.ceil(from);
  const lastWhole = Math.floor(to);
  const startValue = valueAt(array, from);
  const endValue = valueAt(array, to);
  // Both ends between the same two samples.
  if (firstWhole > lastWhole) return 0.5 * (startValue + endValue) * (to - from);
  const first = array[firstWhole] as number;
  const last = array[lastWhole] as number;
  let sum = 0.5 * (startValue + first) * (firstWhole - from) + 0.5 * (last + endValue) * (to - lastWhole);
  if (lastWhole > firstWhole) {
    let inner = 0.5 * (first + last);
    for (let i = firstWhole + 1; i < lastWhole; i++) inner += array[i] as number;
    sum += inner;
  }
  return sum;
}
