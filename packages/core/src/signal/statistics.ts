/** Numbers by index: any typed array or plain array. */
export type Samples = ArrayLike<number>;

/**
 * Mean of array[start .. end), whole bounds.
 *
 * Summed about the first value and corrected by the mean of the residuals, so a constant piece gives its value exactly.
 * Throws RangeError when the piece is empty or leaves the array: callers know their intervals.
 */
export function meanOf(array: Samples, start = 0, end = array.length): number {
  check(array, start, end);
  const origin = array[start] as number;
  const count = end - start;
  let sum = 0;
  for (let i = start; i < end; i++) sum += (array[i] as number) - origin;
  const first = origin + sum / count;
  let residual = 0;
  for (let i = start; i < end; i++) residual += (array[i] as number) - first;
  return first + residual / count;
}

/**
 * Sample standard deviation (n - 1) of array[start .. end), by two passes; exactly 0 for constant data and for one value.
 * Throws RangeError when the piece is empty or leaves the array.
 */
export function sdOf(array: Samples, start = 0, end = array.length): number {
  const mean = meanOf(array, start, end);
  const count = end - start;
  if (count < 2) return 0;
  let squares = 0;
  let residual = 0;
  for (let i = start; i < end; i++) {
    const d = (array[i] as number) - mean;
    squares += d * d;
    residual += d;
  }
  return Math.sqrt(Math.max(0, squares - (residual * residual) / count) / (count - 1));
}

/** Index of the first largest value in array[start .. end); -1 for an empty piece. */
export function indexOfLargest(array: Samples, start = 0, end = array.length): number {
  let best = -1;
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = start; i < end; i++) {
    const value = array[i] as number;
    if (value > largest) {
      largest = value;
      best = i;
    }
  }
  return best;
}

/** Index of the first smallest value in array[start .. end); -1 for an empty piece. */
export function indexOfSmallest(array: Samples, start = 0, end = array.length): number {
  let best = -1;
  let smallest = Number.POSITIVE_INFINITY;
  for (let i = start; i < end; i++) {
    const value = array[i] as number;
    if (value < smallest) {
      smallest = value;
      best = i;
    }
  }
  return best;
}

function check(array: Samples, start: number, end: number): void {
  if (!(start >= 0 && end <= array.length && end > start)) {
    throw new RangeError(`No samples in [${start}, ${end}) of ${array.length}.`);
  }
}
