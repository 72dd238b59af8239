import { sessionError, smallestConfirmable } from '../change/index.ts';
import type { ErrorOfTest } from '../reliability/index.ts';

/** How a session's error is made up. */
export interface ErrorParts {
  /** SD between sessions that no number of trials takes away. */
  readonly between: number;
  /** SD between trials of one session. */
  readonly within: ErrorOfTest;
  /** Trials a session had, as their harmonic mean. */
  readonly trials: number;
}

/**
 * Takes the error of a session's mean apart: between^2 = TE^2 - within^2 / n, not below zero.
 *
 * @param error between-session error of the mean of about `trials` trials
 */
export function errorParts(error: ErrorOfTest, within: ErrorOfTest, trials: number): ErrorParts {
  return { between: Math.sqrt(Math.max(0, error.value ** 2 - within.value ** 2 / trials)), within, trials };
}

/** One way to test, and the smallest true gain it confirms. */
export interface Plan {
  readonly trials: number;
  readonly sessions: number;
  readonly error: number;
  readonly confirmable: number;
}

/**
 * The smallest gain that is confirmed with the given power for each number of trials in a session and of sessions on each side.
 *
 * Error of a session of k trials: sqrt(between^2 + within^2 / k); the degrees of freedom stay those of the test's error.
 */
export function confirmableGrid(
  parts: ErrorParts,
  { df, worthwhile, power = 0.8 }: { readonly df: number; readonly worthwhile: number; readonly power?: number },
  trials: readonly number[],
  sessions: readonly number[],
): readonly Plan[] {
  return sessions.flatMap((n) =>
    trials.map((k) => {
      const error = sessionError(parts.between, parts.within.value, k);
      const test = { error: { value: error, df }, worthwhile, sessions: [n, n] as const };
      return { trials: k, sessions: n, error, confirmable: smallestConfirmable(test, power) };
    }),
  );
}
