import type { BodyWeight } from '../analysis/trial-context.ts';
import { have, type Outcome } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import { motionFrom } from './carried.ts';
import type { JumpEvents, JumpMark } from './events.ts';
import type { JumpContext } from './jump-context.ts';
import { type Motion, positionAt, untilGap, velocityAt } from './motion.ts';
import { endOfLanding, type GroundMarks, groundMarks, phasesOf } from './phases.ts';

/** What is other than it was measured. */
export interface JumpChange {
  readonly forces?: Forces;
  /** W, N. */
  readonly weight?: number;
  /** Sample of the onset; of a drop jump that is `events.firstTouchdown`. */
  readonly onset?: number;
  /** Instants that were moved. */
  readonly events?: JumpEvents;
  /** Whether the instants that the motion gives stay at their samples, or are looked for in the new motion. */
  readonly marks: 'held' | 'found';
}

/**
 * The same jump from other forces, another weight or other instants: motion, marks and phases are made anew, and every metric can be
 * computed from it. Take-off, touchdown, quiet seconds and onset stay where `events` and `onset` have them.
 */
export function remade(jump: JumpContext, change: JumpChange): JumpContext {
  const { kind } = jump;
  const forces = change.forces ?? jump.forces;
  const events = change.events ?? jump.events;
  const bodyWeight: Outcome<BodyWeight> =
    jump.bodyWeight.ok && change.weight !== undefined
      ? have({ ...jump.bodyWeight.value, value: change.weight })
      : jump.bodyWeight;
  const onset =
    jump.onset.ok && change.onset !== undefined ? have({ ...jump.onset.value, index: change.onset }) : jump.onset;
  const start = kind === 'drop' ? events.firstTouchdown : onset.ok ? Math.ceil(onset.value.index) : undefined;
  const changed = { ...jump, forces, bodyWeight, onset, events };
  const furthest = untilGap(jump.forces, jump.events.touchdown, jump.events.span.end);
  const motion = motionOf(changed, start, change.marks, furthest);
  if (!motion.ok || start === undefined) return { ...changed, motion };
  const marks: GroundMarks =
    change.marks === 'found'
      ? groundMarks(forces, motion.value, start, events.takeOff, kind)
      : reread(events, forces, motion.value);
  const landed = change.marks === 'found' ? endOfLanding(motion.value, events.touchdown) : events.endOfLanding;
  const { takeOff, touchdown, weighing } = events;
  return {
    ...changed,
    motion,
    events: {
      ...events,
      // A mark that cannot be found any more stays where it was.
      ...marks,
      ...(landed === undefined ? {} : { endOfLanding: landed }),
      phases: phasesOf(kind, weighing.ok ? weighing.value : undefined, start, marks, takeOff, touchdown, landed),
    },
  };
}

/** Carried no further than values and marks look. */
function motionOf(
  { forces, kind, drop, events, bodyWeight, gravity, motion, stance }: JumpContext,
  start: number | undefined,
  marks: JumpChange['marks'],
  furthest: number,
): Outcome<Motion> {
  if (!motion.ok || !bodyWeight.ok || start === undefined) return motion;
  const air = { takeOff: events.takeOff, touchdown: events.touchdown };
  const from = {
    ...{ kind, drop, forces, start, air, gravity, weighing: events.weighing, stance: () => stance },
    ...{ weight: bodyWeight.value.value, threshold: events.threshold.value },
  };
  return motionFrom(
    from,
    marks === 'found' ? { landingBefore: furthest } : { end: Math.max(events.touchdown, events.endOfLanding ?? 0) + 1 },
  );
}

/** The same instants with what is there now. */
export function reread(events: JumpEvents, { total }: Forces, motion: Motion): GroundMarks {
  const { lowestForce, peakNegativeVelocity, lowestPosition, propulsionStart, peakForce } = events;
  const at = (mark: JumpMark, value: number) => ({ ...mark, value });
  return {
    ...(lowestForce ? { lowestForce: at(lowestForce, total[lowestForce.index] as number) } : {}),
    ...(peakNegativeVelocity
      ? { peakNegativeVelocity: at(peakNegativeVelocity, velocityAt(motion, peakNegativeVelocity.index)) }
      : {}),
    ...(lowestPosition ? { lowestPosition: at(lowestPosition, positionAt(motion, lowestPosition.index)) } : {}),
    ...(propulsionStart === undefined ? {} : { propulsionStart }),
    ...(peakForce ? { peakForce: at(peakForce, total[peakForce.index] as number) } : {}),
  };
}
