import { InvalidArgumentError } from 'commander';

/** An option that is a number, within limits where there are some. */
export const numberOption =
  (low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY) =>
  (text: string): number => {
    const value = Number(text);
    if (text.trim() === '' || !(value >= low && value <= high))
      throw new InvalidArgumentError(
        `Give a number${Number.isFinite(low) ? ` from ${low}` : ''}${Number.isFinite(high) ? ` to ${high}` : ''}.`,
      );
    return value;
  };
