import type { TrialContext } from '../analysis/trial-context.ts';
import { have, lack, type Outcome, type Reason } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import { touchesGap } from '../signal/index.ts';
import type { Measured, MetricEvidence } from './metric.ts';

/**
 * What all metrics share: how a value or a reason is returned, and the order in which reasons win.
 *
 * When several things stand in the way the first of this list is given: the onset's (or baseline's) own reason; the body
 * weight's; `one-side-only`; `window-too-short`; `interval-past-end`; `gap-in-interval`; `not-defined`.
 */

/** No value, and why. */
export const none = (reason: Reason, evidence?: MetricEvidence): Measured =>
  evidence === undefined ? { reason } : { reason, evidence };

/**
 * A value in the unit of a definition, whose leading N becomes the recording's own unit of force where that is not newtons.
 * A value that is not finite (a division by zero) becomes the reason `not-defined`.
 */
export const found = (
  trial: TrialContext,
  value: number,
  unit: string,
  evidence: MetricEvidence,
  exponent?: number,
): Measured => {
  if (!Number.isFinite(value)) return none('not-defined', evidence);
  const shown = unitIn(trial.forces, unit);
  return exponent === undefined ? { value, unit: shown, evidence } : { value, unit: shown, evidence, exponent };
};

/** `N/s` in a recording of torque (`N.m`) is `N.m/s`. */
export const unitIn = (forces: Forces, unit: string): string =>
  forces.unit !== 'N' && /^N(?![A-Za-z])/.test(unit) ? forces.unit + unit.slice(1) : unit;

/** Sample position (may be fractional) a number of milliseconds after another. */
export const later = (trial: TrialContext, position: number, milliseconds: number): number =>
  position + (milliseconds * trial.forces.sampleRate) / 1000;

/**
 * Why the closed interval of positions [start, end] cannot be used, or undefined when it can: it runs past the end of the
 * effort or the data, or it needs a sample of a gap that was not filled.
 */
export function refusal(trial: TrialContext, start: number, end: number): Reason | undefined {
  const last = Math.min(trial.events.end, trial.forces.sampleCount - 1);
  if (!(start >= 0 && start <= end && end <= last)) return 'interval-past-end';
  return touchesGap(trial.forces, start, end) ? 'gap-in-interval' : undefined;
}

/**
 * As `refusal`, for a metric that also uses the peak force: a largest value is only known when no sample of (r, e] is
 * missing.
 */
export const refusalWithPeak = (trial: TrialContext, start: number, end: number): Reason | undefined =>
  refusal(trial, start, end) ?? refusalOfPeak(trial);

/** Why the peak force itself is not known, or undefined when it is. */
export const refusalOfPeak = (trial: TrialContext): Reason | undefined =>
  touchesGap(trial.forces, trial.events.halfRise + 1, trial.events.end) ? 'gap-in-interval' : undefined;

/** Body mass in kg: weight / g. Reason: the body weight's own, or `not-defined` when it is not positive. */
export function bodyMass(trial: TrialContext): Outcome<number> {
  if (!trial.bodyWeight.ok) return trial.bodyWeight;
  const mass = trial.bodyWeight.value.value / trial.gravity;
  return mass > 0 ? have(mass) : lack('not-defined');
}

/** Both sides, or `one-side-only`. */
export function bothSides(forces: Forces): Outcome<{ readonly left: Float64Array; readonly right: Float64Array }> {
  const { left, right } = forces;
  return left && right ? have({ left, right }) : lack('one-side-only');
}

/** 100 (R - L) / (R + L) in %; positive means right. Infinite or NaN when both sides cancel, which `found` refuses. */
export const asymmetry = (left: number, right: number): number => (100 * (right - left)) / (right + left);
