import { studentT } from '../distributions/index.ts';
import type { ErrorOfTest } from '../reliability/index.ts';
import { errorOfChange } from './change.ts';

/** What a test can confirm, before anybody has pulled. */
export interface Confirmable {
  readonly error: ErrorOfTest;
  readonly worthwhile: number;
  /** Sessions behind the new value and behind the reference. */
  readonly sessions: readonly [number, number];
  /** What the two owe to different rigs or checks. */
  readonly rigs?: number;
}

/**
 * Smallest true gain for which `stronger` is said with the given power: SWC + (t(0.95) + t(power)) SE, SE = TE sqrt(1/n + 1/m) with
 * the rigs' part added in squares.
 *
 * The word needs an observed gain of SWC + t(0.95) SE, and an observed gain exceeds the true one less t(power) SE that often.
 */
export function smallestConfirmable({ error, worthwhile, sessions, rigs }: Confirmable, power = 0.8): number {
  return worthwhile + reach(error, power) * errorOfChange(error, sessions, rigs);
}

/** t(0.95) + t(power): it does not depend on the number of sessions. */
const reach = ({ df }: ErrorOfTest, power: number): number =>
  studentT.quantile(0.95, df) + studentT.quantile(power, df);

/**
 * Sessions on each side that bring the smallest confirmable gain to half of what it is; undefined where the worthwhile change alone is
 * more than that half, or where it would take more than a hundred.
 */
export function sessionsToHalve(test: Confirmable, power = 0.8): number | undefined {
  const { error, worthwhile, sessions, rigs } = test;
  const long = reach(error, power);
  const half = (worthwhile + long * errorOfChange(error, sessions, rigs)) / 2;
  for (let n = 1; n <= 100; n++) if (worthwhile + long * errorOfChange(error, [n, n], rigs) <= half) return n;
  return undefined;
}
