/**
 * The value that would stand at place n if the values were sorted, 0 the smallest; undefined outside. The values are moved about.
 *
 * Time in proportion to the number of values, not to its product with a logarithm. Source: Hoare 1961, Algorithm 65: FIND, Commun ACM
 * 4(7):321-322.
 */
export function nthSmallest(values: Float64Array, n: number): number | undefined {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[n] as number;
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] as number) < pivot) i++;
      while ((values[j] as number) > pivot) j--;
      if (i > j) break;
      const value = values[i] as number;
      values[i++] = values[j] as number;
      values[j--] = value;
    }
    if (n <= j) high = j;
    else if (n >= i) low = i;
    else break;
  }
  return values[n];
}
