import type { Samples } from './statistics.ts';

/**
 * Means of every window of `width` samples inside array[from .. to); result[i] is the mean of the samples
 * [from + i, from + i + width). Empty when nothing fits.
 *
 * One pass in O(N): each window is the tail of one block of `width` samples and the head of the next, both summed afresh
 * about the sample where the blocks meet. Nothing is ever subtracted from a running sum, so no error builds up along the
 * recording, and a constant window gives its value exactly.
 */
export function slidingMean(array: Samples, width: number, from = 0, to = array.length): Float64Array {
  const count = windows(array, width, from, to);
  const mean = new Float64Array(count);
  for (let block = 0; block < count; block += width) {
    // Windows that start in (first, middle] all hold the sample at `middle`.
    const first = from + block - 1;
    const middle = first + width;
    const origin = array[middle] as number;
    let sum = 0;
    for (let k = middle - 1; k > first; k--) {
      sum += (array[k] as number) - origin;
      const at = k - from;
      if (at < count) mean[at] = sum;
    }
    sum = 0;
    const last = Math.min(middle, from + count - 1);
    for (let k = first + 1; k <= last; k++) {
      sum += (array[k + width - 1] as number) - origin;
      mean[k - from] = origin + ((k < middle ? (mean[k - from] as number) : 0) + sum) / width;
    }
  }
  return mean;
}

/** The first window with an extreme mean. */
export interface ExtremeMean {
  readonly start: number;
  readonly mean: number;
}

/** The first window of `width` samples inside array[from .. to) with the largest mean; undefined when nothing fits. */
export const largestMean = (array: Samples, width: number, from = 0, to = array.length): ExtremeMean | undefined =>
  extremeMean(array, width, from, to, 1);

/** The same with the smallest mean. */
export const smallestMean = (array: Samples, width: number, from = 0, to = array.length): ExtremeMean | undefined =>
  extremeMean(array, width, from, to, -1);

/**
 * As `slidingMean`, to the last digit, without keeping the means: only the tail sums of one block are held.
 *
 * In a block a larger sum never gives a smaller mean, so only a sum beyond those before it in the block is divided and compared:
 * the others cannot be the first extreme mean.
 */
function extremeMean(array: Samples, width: number, from: number, to: number, sign: 1 | -1): ExtremeMean | undefined {
  const count = windows(array, width, from, to);
  if (count === 0) return undefined;
  const tails = new Float64Array(width);
  let best = Number.NEGATIVE_INFINITY;
  let start = from;
  for (let block = 0; block < count; block += width) {
    const first = from + block - 1;
    const middle = first + width;
    const origin = array[middle] as number;
    let sum = 0;
    for (let k = middle - 1; k > first; k--) {
      sum += (array[k] as number) - origin;
      tails[k - first - 1] = sum;
    }
    // The window that starts in the middle has no tail.
    tails[width - 1] = 0;
    sum = 0;
    let beyond = Number.NEGATIVE_INFINITY;
    const last = Math.min(middle, from + count - 1);
    for (let k = first + 1; k <= last; k++) {
      sum += (array[k + width - 1] as number) - origin;
      const whole = (tails[k - first - 1] as number) + sum;
      if (!(sign * whole > beyond)) continue;
      beyond = sign * whole;
      const mean = origin + whole / width;
      if (sign * mean > best) {
        best = sign * mean;
        start = k;
      }
    }
  }
  return { start, mean: sign * best };
}

/** Means and sample standard deviations (n - 1) of every window; see `slidingMean` for the layout. */
export interface SlidingStatistics {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
}

/**
 * Means and sample SDs of every window of `width` samples (at least 2) inside array[from .. to), in one pass.
 *
 * Built as `slidingMean`; squares are taken about a sample that lies in the window, which bounds the loss of digits
 * (that sample is at most (n-1)/sqrt(n) SDs from the mean), and constant windows have SD exactly 0.
 */
export function slidingStatistics(array: Samples, width: number, from = 0, to = array.length): SlidingStatistics {
  if (width < 2) throw new RangeError('A standard deviation needs a window of at least 2 samples.');
  const count = windows(array, width, from, to);
  const mean = new Float64Array(count);
  const sd = new Float64Array(count);
  for (let block = 0; block < count; block += width) {
    const first = from + block - 1;
    const middle = first + width;
    const origin = array[middle] as number;
    let sum = 0;
    let squares = 0;
    for (let k = middle - 1; k > first; k--) {
      const d = (array[k] as number) - origin;
      sum += d;
      squares += d * d;
      const at = k - from;
      if (at < count) {
        mean[at] = sum;
        sd[at] = squares;
      }
    }
    sum = 0;
    squares = 0;
    const last = Math.min(middle, from + count - 1);
    for (let k = first + 1; k <= last; k++) {
      const d = (array[k + width - 1] as number) - origin;
      sum += d;
      squares += d * d;
      const at = k - from;
      const whole = (k < middle ? (mean[at] as number) : 0) + sum;
      const wholeSquares = (k < middle ? (sd[at] as number) : 0) + squares;
      mean[at] = origin + whole / width;
      sd[at] = Math.sqrt(Math.max(0, wholeSquares - (whole * whole) / width) / (width - 1));
    }
  }
  return { mean, sd };
}

/**
 * Trailing means: result[i] is the mean of the `width` samples that end with sample from + i (inclusive), for sample
 * indices in [from, to). Throws RangeError when the first of them would reach before the array.
 */
export const trailingMean = (array: Samples, width: number, from: number, to: number): Float64Array =>
  slidingMean(array, width, from - width + 1, to);

/**
 * Centred means: result[i] is the mean of the `width` samples that start floor(width / 2) before sample from + i, for sample
 * indices in [from, to). Throws RangeError when a window would leave the array.
 */
export function centredMean(array: Samples, width: number, from: number, to: number): Float64Array {
  const before = Math.floor(width / 2);
  return slidingMean(array, width, from - before, to - before + width - 1);
}

function windows(array: Samples, width: number, from: number, to: number): number {
  if (!(Number.isInteger(width) && width >= 1)) throw new RangeError(`A window cannot hold ${width} samples.`);
  if (from < 0 || to > array.length) throw new RangeError(`[${from}, ${to}) leaves the ${array.length} samples.`);
  return Math.max(0, to - from - width + 1);
}
