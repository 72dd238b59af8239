import { have, lack, type Outcome } from '../outcome.ts';
import type { UtcInstant } from '../recording/index.ts';
import { calibrationLine } from './calibration-line.ts';

/** How the gain of a plate wanders over the years. */
export interface GainTrend {
  /** How many checks it comes from. */
  readonly n: number;
  /** Change of the gain error, % per year. */
  readonly perYear: number;
  /** Standard error of that. */
  readonly error: number;
  /** Gain error now by the line, %. */
  readonly now: number;
}

const year = 365.25 * 86_400_000;

/**
 * The straight line through the gain errors of a plate's checks over time. The errors must be of the plate as it is: with a correction
 * in force, what it put right is added again by the caller.
 *
 * @param checks when, and the gain error in %
 * @returns `too-few-values` under three checks, `no-spread` where all were made at once
 */
export function gainTrend(
  checks: readonly { readonly at: UtcInstant; readonly gain: number }[],
  now: UtcInstant,
): Outcome<GainTrend> {
  if (checks.length < 3) return lack('too-few-values');
  const years = checks.map(({ at }) => (Date.parse(at) - Date.parse(now)) / year);
  const line = calibrationLine(
    years,
    checks.map(({ gain }) => gain),
  );
  if (!line.ok) return line;
  const { slope, slopeError, offset } = line.value;
  return have({ n: checks.length, perYear: slope, error: slopeError, now: offset });
}
