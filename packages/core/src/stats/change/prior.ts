/** What is known of an athlete before testing: mean and SD of people like this one, and the error of a test. */
export interface TeamPrior {
  readonly mean: number;
  readonly sd: number;
  readonly error: number;
}

/** An athlete's level after n tests, with the band the next one lies in. */
export interface KnownLevel {
  readonly mean: number;
  readonly sd: number;
  readonly nextSd: number;
  readonly band: readonly [number, number];
}

/**
 * Level of an athlete from the team and n own tests: precisions 1/sd^2 and n/error^2 add up; the next test has in addition its own
 * error. Assumes that all athletes err alike. With n = 0 it is the team's band.
 *
 * Source: normal-normal updating; for athletes Sottas et al. 2007, Biostatistics 8:285-296 (from memory).
 *
 * @param z half-width of the band in SD
 */
export function levelOf({ mean, sd, error }: TeamPrior, own: { readonly n: number; readonly mean: number }, z = 1.96) {
  const [p0, p1] = [1 / sd ** 2, own.n / error ** 2];
  const level = own.n === 0 ? mean : (p0 * mean + p1 * own.mean) / (p0 + p1);
  const spread = Math.sqrt(1 / (p0 + p1));
  const nextSd = Math.sqrt(spread ** 2 + error ** 2);
  return { mean: level, sd: spread, nextSd, band: [level - z * nextSd, level + z * nextSd] } satisfies KnownLevel;
}
