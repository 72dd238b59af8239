import { exactExp, sineOfTurns, smoothStep } from './exact-math.ts';
import type { PullParameters } from './parameters.ts';
import { oscillationAt } from './pull-model.ts';

/** Vertical forces under the two feet, N. */
export interface Feet {
  readonly left: number;
  readonly right: number;
}

/**
 * Shares a sum between the feet: standing load by the standing share, force above it by the pull's share, and a slow
 * exchange of weight that leaves the sum alone. On one leg everything rests on that leg.
 */
export function feetAt(t: number, standing: number, net: number, p: PullParameters): Feet {
  if (p.limbs === 'left') return { left: standing + net, right: 0 };
  if (p.limbs === 'right') return { left: 0, right: standing + net };
  const moved = oscillationAt(t, p.exchange) * bothFeetOn(t, p);
  const right = standing * p.standingShareRight + net * p.pullShareRight + moved;
  return splitAtStepping(t, standing + net - right, right, p);
}

/** Body weight with breathing and drift, scaled by how far the athlete is on the plates, and the swing of stepping on. */
export function standingForceAt(t: number, p: PullParameters): number {
  const on = presence(t, p);
  if (on === 0) return 0;
  const still = p.bodyWeight + oscillationAt(t, p.breathing) + p.drift * (t - p.onset);
  return on * still + landingSwing(t, p);
}

/** 0 off the plates, 1 on them. */
export function presence(t: number, p: PullParameters): number {
  const on = p.stepOnAt === undefined ? 1 : smoothStep((t - p.stepOnAt) / 0.45);
  const off = p.stepOff ? 1 - smoothStep((t - stepOffTime(p)) / 0.3) : 1;
  return on * off;
}

const stepOffTime = (p: PullParameters): number => p.onset + p.hold + p.release + 0.5;

/** Second foot arrives 0.5 s after the first. */
const secondFoot = 0.5;

function bothFeetOn(t: number, p: PullParameters): number {
  const on = p.stepOnAt === undefined ? 1 : smoothStep((t - p.stepOnAt - secondFoot) / 0.25);
  return on * presence(t, p);
}

/** The left foot steps on first and carries everything until the right one arrives. */
function splitAtStepping(t: number, left: number, right: number, p: PullParameters): Feet {
  if (p.stepOnAt === undefined) return { left, right };
  const arrived = smoothStep((t - p.stepOnAt - secondFoot) / 0.25);
  return { left: left + right * (1 - arrived), right: right * arrived };
}

/** Damped swing of the body after stepping on, about a tenth of body weight at first. */
function landingSwing(t: number, p: PullParameters): number {
  if (p.stepOnAt === undefined) return 0;
  const u = t - p.stepOnAt - 0.2;
  if (u <= 0) return 0;
  return 0.12 * p.bodyWeight * smoothStep(u / 0.1) * exactExp(-u / 0.4) * sineOfTurns(2.2 * u);
}
