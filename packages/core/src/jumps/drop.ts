import { have, lack, type Outcome } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { touchesGap } from '../signal/index.ts';
import type { WeighingWindow } from './events.ts';
import type { DropRule } from './method/jump-method.ts';
import { type Air, integrate, type Motion, restingVelocity, velocityAt } from './motion.ts';

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
  return velocityTaken(integrate(forces, touchdown, end, weight, gravity, air), { start, end });
}

/** Velocity that a motion begun at rest must have begun with, for it to rest over a stand, m/s. */
export function velocityTaken(motion: Motion, { start, end }: SampleSpan): Outcome<number> {
  const resting = restingVelocity(motion, start, end);
  return resting === undefined ? lack('interval-past-end') : have(-resting);
}

/**
 * Velocity at the first touchdown of a drop jump, m/s (negative), where the box stands on a plate too: whoever stands still on it has no
 * velocity, and what the sum of all plates did since then made the fall.
 *
 * v_td = (1 / m) times the integral of (F - W) from the stand to the touchdown; the fall counts with F = 0. The beginning is the mean over
 * the whole quiet window, so that its sway does not matter.
 *
 * @param stand the quiet stand on the box, W with it
 * @param threshold force under which nobody is on any plate, N
 * Source: double-plate reference of Baca 1999, Med Sci Sports Exerc 31(3):437-442; McMahon et al. 2021, Biomechanics 1(2):178-189.
 */
export function touchdownVelocityFromBox(
  forces: Forces,
  touchdown: number,
  stand: Outcome<WeighingWindow>,
  weight: number,
  gravity: number,
  threshold: number,
): Outcome<number> {
  if (!stand.ok) return stand;
  const { start, end } = stand.value;
  if (touchesGap(forces, start, touchdown)) return lack('gap-in-interval');
  let left = touchdown - 1;
  while (left > end && !((forces.total[left - 1] as number) > threshold)) left--;
  const motion = integrate(forces, start, touchdown + 1, weight, gravity, { takeOff: left, touchdown });
  const standing = restingVelocity(motion, start, end);
  return standing === undefined ? lack('interval-past-end') : have(velocityAt(motion, touchdown) - standing);
}

/** How the velocity at touchdown of a drop jump is found; see `JumpMethod.drop`. */
export function fallVelocity(
  rule: DropRule | undefined,
  forces: Forces,
  touchdown: number,
  air: Air,
  stands: { readonly weighing: Outcome<WeighingWindow>; readonly stance: Outcome<WeighingWindow> },
  weight: number,
  gravity: number,
  threshold: number,
): Outcome<number> {
  return rule === undefined
    ? touchdownVelocity(forces, touchdown, air, stands.stance, weight, gravity)
    : touchdownVelocityFromBox(forces, touchdown, stands.weighing, weight, gravity, threshold);
}

/** Nominal speed of a fall from a box, m/s: sqrt(2 g h). For comparison only, the box is not the drop. */
export const nominalTouchdownSpeed = (boxHeight: number, gravity: number): number => Math.sqrt(2 * gravity * boxHeight);
