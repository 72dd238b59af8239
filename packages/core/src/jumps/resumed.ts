import { have } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import type { JumpContext } from './jump-context.ts';
import { carryOn } from './motion.ts';
import { remade, reread } from './remade.ts';

/**
 * The same jump again and again, with every instant held, from forces that are changed in place from one time to the next.
 *
 * A jump from standing is integrated anew only from where the forces were changed; what comes out is that of `remade` to the last digit.
 * The arrays of its motion are used again by the next call.
 *
 * @returns a function of the first sample that is other than at the last call or may be other at the next
 */
export function resumed(jump: JumpContext, forces: Forces): (from: number) => JumpContext {
  const first = remade(jump, { forces, marks: 'held' });
  if (jump.kind === 'drop' || !first.motion.ok) return () => remade(jump, { forces, marks: 'held' });
  const motion = first.motion.value;
  const { takeOff, touchdown } = first.events;
  const air = { takeOff, touchdown };
  /** Last sample up to which the motion is that of forces that no longer change. */
  let settled = motion.start;
  return (from) => {
    const last = Math.min(motion.end - 1, Math.max(motion.start, from - 1));
    carryOn(motion, forces, air, Math.min(settled, last));
    settled = last;
    return { ...first, motion: have(motion), events: { ...first.events, ...reread(jump.events, forces, motion) } };
  };
}
