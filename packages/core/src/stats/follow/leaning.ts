import { detectableAt, detectableChange, type ErrorOfTest } from '../reliability/index.ts';

/** Why an asymmetry is spoken of. */
export type LeaningRule = 'once-beyond-detectable' | 'two-of-three';

/** An asymmetry that is more than its noise. */
export interface Leaning {
  readonly side: 'left' | 'right';
  readonly rule: LeaningRule;
}

/** Errors beyond which one session leans to a side: 5 % one-sided under no asymmetry. */
const leansFrom = 1.65;

/**
 * Whether an athlete's asymmetry may be spoken of: the newest beyond the detectable change (1.96 sqrt 2 TE), or two of the newest three
 * beyond 1.65 TE to the same side.
 *
 * @param values signed, in per cent, oldest first; positive is right
 * @returns undefined where it stays within its noise
 * Source of 1.65 TE: one-sided 5 % point of the normal distribution; the rule is this product's own.
 */
export function leaning(values: readonly number[], error: ErrorOfTest): Leaning | undefined {
  const newest = values.at(-1);
  if (newest === undefined) return undefined;
  const sideOf = (value: number) => (value > 0 ? 'right' : 'left');
  if (Math.abs(newest) > detectableChange(error.value, detectableAt[95]))
    return { side: sideOf(newest), rule: 'once-beyond-detectable' };
  const leans = values.slice(-3).filter((value) => Math.abs(value) > leansFrom * error.value);
  const side = (['left', 'right'] as const).find((one) => leans.filter((value) => sideOf(value) === one).length >= 2);
  return side === undefined ? undefined : { side, rule: 'two-of-three' };
}
