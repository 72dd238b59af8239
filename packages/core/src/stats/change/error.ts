import { have, lack, type Outcome } from '../../outcome.ts';
import { straightLine } from '../regression.ts';
import type { ErrorOfTest } from '../reliability/index.ts';

/** Degrees of freedom a squad's error counts for beside an athlete's own, whatever its study had. */
export const squadWeight = 10;
/** Fewest own sessions that carry a verdict where no squad's error is known. */
export const fewestOwnSessions = 5;

/**
 * An athlete's own between-session error: SD of the sessions about a straight line in time, so that a trend is no noise; df n - 2.
 *
 * @param at time of each session, any unit
 * @returns `too-few-values` under three sessions, `no-spread` where all lie at one time
 */
export function ownError(at: readonly number[], values: readonly number[]): Outcome<ErrorOfTest> {
  if (values.length < 3) return lack('too-few-values');
  const line = straightLine(at, values);
  return line === undefined ? lack('no-spread') : have({ value: line.residualSd, df: values.length - 2 });
}

/**
 * The error a change is judged by: TE^2 = (v0 TE_squad^2 + v TE_own^2) / (v0 + v), df v0 + v, v0 = 10; one of the two alone where the
 * other is not known.
 *
 * @returns `too-few-values` without a squad's error and under five own sessions
 */
export function combinedError(squad: ErrorOfTest | undefined, own: ErrorOfTest | undefined): Outcome<ErrorOfTest> {
  if (squad === undefined)
    return own !== undefined && own.df >= fewestOwnSessions - 2 ? have(own) : lack('too-few-values');
  if (own === undefined) return have({ value: squad.value, df: Math.max(squadWeight, squad.df) });
  const df = squadWeight + own.df;
  return have({ value: Math.sqrt((squadWeight * squad.value ** 2 + own.df * own.value ** 2) / df), df });
}

/** Error of the mean of k trials of one session: sqrt(between sessions^2 + within a session^2 / k). */
export const sessionError = (between: number, within: number, trials: number): number =>
  Math.sqrt(between ** 2 + within ** 2 / trials);
