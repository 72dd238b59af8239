/** The first of those with the largest length; undefined of none. */
export const longestBy = <T>(all: readonly T[], length: (one: T) => number): T | undefined =>
  all.reduce<T | undefined>((best, one) => (best === undefined || length(one) > length(best) ? one : best), undefined);
