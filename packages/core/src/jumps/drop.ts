import { have, lack, type Outcome } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import { touchesGap } from '../signal/index.ts';
import type { WeighingWindow } from './events.ts';
import { type Air, integrate, restingVelocity } from './motion.ts';

/**
 * Velocity at the first touchdown of a drop jump, m/s (negative), from one plate: whoever stands still after the landing has no
 * velocity, so all that the force did since the touchdown was to take the fall away.
 *
 * v_td = -(1 / m) times the integral of (F - W) from touchdown to the stand; the flight counts with F = 0. The end is the mean over
 * the whole quiet window, so that its sway does not matter.
 *
 * @param weight W, N, from that stand
 * @returns the reason of the stand where there is none
 * Source: McMahon et al. 2021, Biomechanics 1(2):178-189, doi 10.3390/biomechanics1020015.
 */
export function touchdownVelocity(
  forces: Forces,
  touchdown: number,
  air: Air,
  stance: Outcome<WeighingWindow>,
  weight: number,
  gravity: number,
): Outcome<number> {
  if (!stance.ok) return stance;
  const { start, end } = stance.value;
  if (touchesGap(forces, touchdown, end - 1)) return lack('gap-in-interval');
  const resting = restingVelocity(integrate(forces, touchdown, end, weight, gravity, air), start, end);
  return resting === undefined ? lack('interval-past-end') : have(-resting);
}

/** Nominal speed of a fall from a box, m/s: sqrt(2 g h). For comparison only, the box is not the drop. */
export const nominalTouchdownSpeed = (boxHeight: number, gravity: number): number => Math.sqrt(2 * gravity * boxHeight);
