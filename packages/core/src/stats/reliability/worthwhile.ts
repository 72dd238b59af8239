import { have, lack, type Outcome } from '../../outcome.ts';

/** Share of the spread between people that is worth while (Hopkins 2004, Sportscience 8:1-7). */
export const worthwhileShare = 0.2;

/**
 * Smallest worthwhile change: 0.2 of the spread of true scores, sqrt(SD^2 - TE^2).
 *
 * @param sd SD between people of one test each, as observed
 * @returns `no-spread` where the error is as large as the spread: nothing true is left of it
 */
export function worthwhileChange(sd: number, typicalError: number, share = worthwhileShare): Outcome<number> {
  const trueVariance = sd * sd - typicalError * typicalError;
  return trueVariance > 0 ? have(share * Math.sqrt(trueVariance)) : lack('no-spread');
}

/** How the error of a test compares with what is worth while; about equal is within a tenth (the limit is ours). */
export type Usefulness = 'finer' | 'about-equal' | 'coarser';
export function usefulness(typicalError: number, worthwhile: number): Usefulness {
  const ratio = typicalError / worthwhile;
  return ratio < 0.9 ? 'finer' : ratio <= 1.1 ? 'about-equal' : 'coarser';
}

/** Tests whose mean has a standard error no larger than the worthwhile change: (TE / SWC)^2, rounded up. */
export const testsToReach = (typicalError: number, worthwhile: number): number =>
  Math.max(1, Math.ceil((typicalError / worthwhile) ** 2 - 1e-12));
