import type { TrialResult } from '../analysis/result.ts';
import type { Forces } from '../recording/forces.ts';
import { integrate, type Motion, untilGap } from './motion.ts';

/**
 * Velocity and position of a judged jump again, for drawing. The same numbers as behind its metrics when the method has no filter.
 *
 * @param forces as read for that trial; a drifted zero is taken off as the result says
 * @returns undefined for a series of hops, for a result without weight or onset, and for one that is no jump
 */
export function motionOfTrial(forces: Forces, result: TrialResult): Motion | undefined {
  const { jump, onset, bodyWeight, metrics, gravity, span } = result;
  if (jump === undefined || jump.kind === 'repeated' || !onset.ok || !bodyWeight.ok) return undefined;
  const drop = metrics.touchdown_velocity;
  const startVelocity = jump.kind === 'drop' ? (drop && 'value' in drop ? drop.value : undefined) : 0;
  if (startVelocity === undefined) return undefined;
  const { zeroOffset } = jump.threshold;
  const total = zeroOffset === 0 ? forces.total : forces.total.map((value) => value - zeroOffset);
  const start = jump.firstTouchdown ?? Math.ceil(onset.value.index);
  const air = { takeOff: jump.takeOff, touchdown: jump.touchdown };
  const end = untilGap(forces, jump.touchdown, Math.min(span.end, forces.sampleCount));
  return integrate({ ...forces, total }, start, end, bodyWeight.value.value, gravity, air, startVelocity);
}
