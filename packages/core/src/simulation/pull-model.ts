import { exactExp, sineOfTurns, smoothStep } from './exact-math.ts';
import type { Oscillation, PullParameters } from './parameters.ts';
import { riseShare } from './rise.ts';

/** Value of an oscillation at a time. */
export function oscillationAt(t: number, o: Oscillation): number {
  return o.amplitude * sineOfTurns(o.frequency * t + o.phase);
}

/** Share of the plateau that is held at time t when nothing goes wrong: 0 before the onset. */
export type RiseCurve = (sinceOnset: number) => number;

export const plainRise =
  (p: PullParameters): RiseCurve =>
  (s) =>
    riseShare(s, p.rise);

/** 1 while the athlete holds on, falling smoothly to 0 over the release. */
export function holding(t: number, p: PullParameters): number {
  return 1 - smoothStep((t - p.onset - p.hold) / p.release);
}

/**
 * Force above standing at time t, N: bar tension that the pull takes over, the rise, a slowly tiring plateau with tremor,
 * the release and the small rebound after it.
 */
export function netForceAt(t: number, p: PullParameters, rise: RiseCurve): number {
  const s = t - p.onset;
  const share = rise(s);
  const standing = p.tension * (1 - smoothStep((s - p.hold) / p.release)) * (1 - share);
  if (s <= 0) return standing;
  const tired = 1 - p.fatigue * tiredTime(s - p.fatigueFrom);
  const unsteady = 1 + share * (oscillationAt(t, p.tremor) + oscillationAt(t, p.wander));
  return standing + p.netForce * share * tired * unsteady * holding(t, p) - rebound(t, p);
}

/** Seconds of tiring, starting without a corner over the first half second. */
function tiredTime(s: number): number {
  if (s <= 0) return 0;
  return s < 0.5 ? s * s : s - 0.25;
}

/** A swing about the standing level after letting go. */
function rebound(t: number, p: PullParameters): number {
  const u = t - p.onset - p.hold - p.release * 0.8;
  if (u <= 0) return 0;
  return 0.08 * p.netForce * exactExp(-u / 0.12) * sineOfTurns(2.5 * u) * smoothStep(u / 0.1);
}
