import type { JumpContext } from '../../jumps/jump-context.ts';
import { standingUnrest } from '../../jumps/quiet.ts';
import type { UncertaintySources, WeightSource } from '../sources.ts';
import { quietSeconds, weightFromMeans } from '../stand-still.ts';
import { type KnownOfTrial, sourcesFrom } from '../trial-sources.ts';
import { noiseOfJump } from './jump-noise.ts';

/** Sources of a jump's uncertainty: what is known besides, noise and standing from the curve itself. */
export const sourcesOfJump = (jump: JumpContext, known: KnownOfTrial): UncertaintySources =>
  sourcesFrom(jump.bodyWeight, known, () => weightFromJump(jump), noiseOfJump(jump));

/**
 * Standard uncertainty of W from the means of successive seconds of the stand it was read from: whole seconds backward from the end of
 * the quiet second (after a drop jump forward from its start) for as long as each is quiet, SD and distance from W at most 5 % of it, at
 * most ten. Where only one second stands there, the quiet second on the other side of the jump is the other.
 *
 * @returns undefined where there is no second second
 */
function weightFromJump(jump: JumpContext): WeightSource | undefined {
  const { events, stance, forces } = jump;
  if (!events.weighing.ok) return undefined;
  const { place, start, end, mean } = events.weighing.value;
  const within = { start: events.span.start, end: Math.min(events.span.end, forces.sampleCount) };
  const level = { mean, allowed: standingUnrest * mean };
  const [from, way] = place === 'before' ? ([end, 'backward'] as const) : ([start, 'forward'] as const);
  const means = quietSeconds(forces, within, level, from, way);
  if (means.length > 1) return weightFromMeans(means, place === 'before' ? 'standing-before' : 'standing-after');
  const other = place === 'before' && stance.ok ? stance.value.mean : undefined;
  return other === undefined ? undefined : weightFromMeans([mean, other], 'standing-both');
}
