import { have } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import { velocityTaken } from './drop.ts';
import type { JumpContext } from './jump-context.ts';
import { type Air, carryOn, integrate, type Motion } from './motion.ts';
import { remade, reread } from './remade.ts';

/**
 * The same jump again and again, with every instant held, from forces that are changed in place from one time to the next.
 *
 * It is integrated anew only from where the forces were changed; what comes out is that of `remade` to the last digit. The arrays of its
 * motion are used again by the next call.
 *
 * @returns a function of the first sample that is other than at the last call or may be other at the next
 */
export function resumed(jump: JumpContext, forces: Forces): (from: number) => JumpContext {
  const again = () => remade(jump, { forces, marks: 'held' });
  const first = again();
  // A fall from a box on a plate begins before the motion.
  if (!first.motion.ok || jump.drop !== undefined) return again;
  const motion = first.motion.value;
  const { takeOff, touchdown } = first.events;
  const air = { takeOff, touchdown };
  const carry = jump.kind === 'drop' ? carryingDrop(jump, forces, motion, air) : carrying(motion, forces, air);
  return (from) => {
    carry(from);
    return { ...first, motion: have(motion), events: { ...first.events, ...reread(jump.events, forces, motion) } };
  };
}

/** Carries a motion on from the sample before a changed one, and from where it was last settled. */
function carrying(motion: Motion, forces: Forces, air: Air): (from: number) => void {
  /** Up to this sample the motion is that of forces that no longer change. */
  let settled = motion.start;
  return (from) => {
    const last = Math.min(motion.end - 1, Math.max(motion.start, from - 1));
    carryOn(motion, forces, air, Math.min(settled, last));
    settled = last;
  };
}

/** A drop is carried to its stand first: how fast it began follows from that, and with it all of its motion. */
function carryingDrop(
  { stance, gravity }: JumpContext,
  forces: Forces,
  motion: Motion,
  air: Air,
): (from: number) => void {
  const { start, weight } = motion;
  if (!stance.ok) throw new Error('A drop without a stand after it has no motion.');
  const toStand = integrate(forces, start, stance.value.end, weight, gravity, air);
  const carry = carrying(toStand, forces, air);
  return (from) => {
    carry(from);
    const velocity = velocityTaken(toStand, stance.value);
    if (velocity.ok) motion.velocity[0] = velocity.value;
    carryOn(motion, forces, air, start);
  };
}
