import { have, type Outcome } from '../outcome.ts';
import type { JumpKind } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import { fallVelocity } from './drop.ts';
import type { WeighingWindow } from './events.ts';
import type { DropRule } from './method/jump-method.ts';
import { type Air, atLeastOne, integrate, type Motion } from './motion.ts';
import { endOfLanding } from './phases.ts';

/** Landings are over after so long, s; one that is not is looked for further on. */
const usualLanding = 0.5;

/** What the motion of one jump follows from. */
export interface MotionFrom {
  readonly kind: JumpKind;
  /** Of a drop jump; absent: from the stand after the landing. */
  readonly drop: DropRule | undefined;
  readonly forces: Forces;
  /** First sample: the onset, of a drop jump the first touchdown. */
  readonly start: number;
  readonly air: Air;
  readonly weighing: Outcome<WeighingWindow>;
  /** Asked for by drop jumps alone. */
  readonly stance: () => Outcome<WeighingWindow>;
  readonly weight: number;
  readonly gravity: number;
  /** Force under which nobody is on the plates, N. */
  readonly threshold: number;
}

/**
 * The motion of a jump, up to an end, or as far as values of it look; see `carriedToLanding`.
 *
 * @returns the reason why the velocity it begins with is not known
 */
export function motionFrom(
  { kind, drop, forces, start, air, weighing, stance, weight, gravity, threshold }: MotionFrom,
  reach: { readonly end: number } | { readonly landingBefore: number },
): Outcome<Motion> {
  const velocity =
    kind === 'drop'
      ? fallVelocity(drop, forces, start, air, { weighing, stance: stance() }, weight, gravity, threshold)
      : have(0);
  if (!velocity.ok) return velocity;
  const carry = (end: number) => integrate(forces, start, end, weight, gravity, air, velocity.value);
  return have(
    'end' in reach ? carry(reach.end) : carriedToLanding(carry, air.touchdown, forces.sampleRate, reach.landingBefore),
  );
}

/**
 * A motion carried as far as values of a jump look, the end of the landing, and not over all that is recorded after it.
 *
 * @param carry makes the motion up to an end
 * @param furthest the end where the landing has none
 */
function carriedToLanding(carry: (end: number) => Motion, touchdown: number, rate: number, furthest: number): Motion {
  const near = touchdown + atLeastOne(usualLanding, rate);
  if (near >= furthest) return carry(furthest);
  const motion = carry(near);
  return endOfLanding(motion, touchdown) === undefined ? carry(furthest) : motion;
}
