import { atLeastOne, type Motion } from './motion.ts';
import { endOfLanding } from './phases.ts';

/** Landings are over after so long, s; one that is not is looked for further on. */
const usualLanding = 0.5;

/**
 * A motion carried as far as values of a jump look, the end of the landing, and not over all that is recorded after it.
 *
 * @param carry makes the motion up to an end
 * @param furthest the end where the landing has none
 */
export function carriedToLanding(
  carry: (end: number) => Motion,
  touchdown: number,
  rate: number,
  furthest: number,
): Motion {
  const near = touchdown + atLeastOne(usualLanding, rate);
  if (near >= furthest) return carry(furthest);
  const motion = carry(near);
  return endOfLanding(motion, touchdown) === undefined ? carry(furthest) : motion;
}
