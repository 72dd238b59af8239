import type { JumpContext } from '../../jumps/jump-context.ts';
import { remade } from '../../jumps/remade.ts';
import type { SampleSpan } from '../../recording/sample.ts';
import { meanOf } from '../../signal/index.ts';
import { disturbedForces } from '../disturbed.ts';
import type { ElementaryError } from '../errors.ts';
import { type Load, loadsWhile } from '../loads.ts';

/** The plates of a jump, with what each carried of W in the quiet second. */
export function loadsOfJump({ forces, bodyWeight, events }: JumpContext): readonly Load[] {
  const level = bodyWeight.ok ? bodyWeight.value.value : 1;
  return loadsWhile(forces, level, events.weighing.ok ? events.weighing.value : undefined);
}

/** Stretches on the plates between times in the air: each is a loading of its own. */
export function loadingsOf({ events, forces }: JumpContext): readonly SampleSpan[] {
  const { contacts, takeOff, touchdown } = events;
  const air = contacts.length === 0 ? [{ takeOff, nextTouchdown: touchdown }] : contacts;
  const first = contacts[0]?.touchdown ?? 0;
  const starts = [first, ...air.map((one) => one.nextTouchdown)];
  return [
    // Standing before the first contact: before hops there is some, before a drop there is where the box stands on a plate.
    ...(first > 1 ? [{ start: 0, end: first - 1 }] : []),
    // The sample before a touchdown and that of a take-off still bound the crossing.
    ...starts.map((start, i) => ({ start: Math.max(0, start - 1), end: (air[i]?.takeOff ?? forces.sampleCount) + 1 })),
  ];
}

/** Samples over which a drifted zero was taken off; undefined where it held. */
export const zeroedOver = ({ events: { threshold } }: JumpContext): SampleSpan | undefined =>
  threshold.zeroOffset === 0 ? undefined : threshold.window;

/** The same jump with one error added (sign 1) or taken off (sign -1); every instant stays where it is. */
export function disturbedJump(
  jump: JumpContext,
  loads: readonly Load[],
  error: ElementaryError,
  sign: 1 | -1,
): JumpContext {
  const { bodyWeight, events, forces } = jump;
  const moved = error.onForce || error.late ? disturbedForces(forces, loads, error, sign, zeroedOver(jump)) : forces;
  if (!bodyWeight.ok) return remade(jump, { forces: moved, marks: 'held' });
  const { value, from } = bodyWeight.value;
  const moves = (plate: number) => error.plates === undefined || error.plates.includes(plate);
  const standing =
    from === 'baseline' && events.weighing.ok
      ? meanOf(moved.total, events.weighing.value.start, events.weighing.value.end) - events.weighing.value.mean
      : error.reachesWeight
        ? sign *
          loads.reduce(
            (sum, load, i) => (load.inTotal && moves(i) ? sum + (error.onForce?.(load.standing) ?? 0) : sum),
            0,
          )
        : 0;
  return remade(jump, { forces: moved, weight: value + standing + sign * (error.onWeight ?? 0), marks: 'held' });
}
