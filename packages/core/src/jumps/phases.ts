import type { JumpKind } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import { indexOfLargest, indexOfSmallest } from '../signal/index.ts';
import type { JumpEvents, JumpMark, JumpPhase, WeighingWindow } from './events.ts';
import { type Motion, positionAt, velocityAt } from './motion.ts';

/** The instants on the ground that the motion gives. */
export type GroundMarks = Pick<
  JumpEvents,
  'lowestForce' | 'peakNegativeVelocity' | 'lowestPosition' | 'propulsionStart' | 'peakForce'
>;

/**
 * Instants between a first sample on the ground (onset, or first touchdown of a drop jump) and take-off: lowest force before the
 * velocity is most negative, first sample of the most negative velocity, lowest position, first upward sample after it, first
 * sample of the largest force.
 *
 * Where nothing moves downward there is no lowest force, peak negative velocity or lowest position: no countermovement was made.
 */
export function groundMarks(
  forces: Forces,
  motion: Motion,
  start: number,
  takeOff: number,
  kind: JumpKind,
): GroundMarks {
  const force = forces.total;
  const peak = indexOfLargest(force, start, takeOff + 1);
  const peakForce: JumpMark = { index: peak, value: force[peak] as number, unit: 'N' };
  const { velocity, position, start: first } = motion;
  const fastest = first + indexOfSmallest(velocity, start - first, takeOff + 1 - first);
  const down = velocityAt(motion, fastest) < 0;
  let upward = down ? fastest : start;
  while (upward <= takeOff && !(velocityAt(motion, upward) > 0)) upward++;
  const propulsion = upward <= takeOff ? { propulsionStart: upward } : {};
  if (!down) return { peakForce, ...propulsion };
  const lowest = first + indexOfSmallest(position, start - first, takeOff + 1 - first);
  const least = indexOfSmallest(force, start, fastest + 1);
  return {
    ...(kind === 'countermovement' ? { lowestForce: { index: least, value: force[least] as number, unit: 'N' } } : {}),
    peakNegativeVelocity: { index: fastest, value: velocityAt(motion, fastest), unit: 'm/s' },
    lowestPosition: { index: lowest, value: positionAt(motion, lowest), unit: 'm' },
    ...propulsion,
    peakForce,
  };
}

/** First sample after the touchdown that does not move downward; undefined when the recording ends before. */
export function endOfLanding(motion: Motion, touchdown: number): number | undefined {
  for (let i = touchdown; i < motion.end; i++) if (velocityAt(motion, i) >= 0) return i;
  return undefined;
}

/**
 * Phases of one jump, each with the id of its definition.
 *
 * Jump from standing: weighing, unweighting (onset to most negative velocity), braking (to the first upward velocity), propulsion
 * (to take-off), flight, landing (touchdown to the end of downward movement). Squat jump: no unweighting and no braking. Drop jump:
 * braking begins at the first touchdown.
 *
 * Source: McMahon et al. 2018, Strength Cond J 40(4):96-106.
 */
export function phasesOf(
  kind: JumpKind,
  weighing: WeighingWindow | undefined,
  start: number | undefined,
  marks: GroundMarks,
  takeOff: number,
  touchdown: number,
  landed: number | undefined,
): JumpPhase[] {
  const phases: JumpPhase[] = [];
  const add = (id: JumpPhase['id'], definition: string, from: number | undefined, to: number | undefined): void => {
    if (from !== undefined && to !== undefined && to > from) phases.push({ id, definition, start: from, end: to });
  };
  const { peakNegativeVelocity, propulsionStart } = marks;
  if (weighing?.place === 'before' && kind === 'drop') add('weighing', 'stand-on-box', weighing.start, weighing.end);
  else if (weighing?.place === 'before')
    add('weighing', 'weighing-window-to-onset', weighing.start, start ?? weighing.end);
  if (kind === 'countermovement') {
    add('unweighting', 'onset-to-peak-negative-velocity', start, peakNegativeVelocity?.index);
    add('braking', 'peak-negative-velocity-to-upward', peakNegativeVelocity?.index, propulsionStart);
  }
  if (kind === 'drop') add('braking', 'touchdown-to-upward', start, propulsionStart);
  if (kind !== 'repeated')
    add(
      'propulsion',
      kind === 'squat' ? 'onset-to-take-off' : 'upward-to-take-off',
      kind === 'squat' ? start : propulsionStart,
      takeOff,
    );
  add('flight', 'take-off-to-touchdown', takeOff, touchdown);
  add('landing', 'touchdown-to-rest', touchdown, landed);
  if (weighing?.place === 'after') add('weighing', 'stand-after-landing', weighing.start, weighing.end);
  return phases;
}

/** A phase by id. */
export const phaseOf = (events: JumpEvents, id: JumpPhase['id']): JumpPhase | undefined =>
  events.phases.find((phase) => phase.id === id);
