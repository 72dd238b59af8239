/**
 * Change of a value when one input moves by its standard uncertainty: half the difference between the value with it added and taken off.
 *
 * The sign is kept: it says which inputs move several values together. Source: GUM (JCGM 100:2008) 5.1.3, note 2 (half differences in
 * place of partial derivatives).
 */
export const halfDifference = (above: number, below: number): number => (above - below) / 2;

/**
 * Combined standard uncertainty of independent contributions: the root of the sum of their squares. Source: GUM (JCGM 100:2008), equation
 * 10. Correlated inputs are first written as sums of independent ones, as a gain that moves every force at once.
 */
export function rootSumOfSquares(contributions: readonly number[]): number {
  let sum = 0;
  for (const one of contributions) sum += one * one;
  return Math.sqrt(sum);
}
