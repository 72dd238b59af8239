import type { TrialContext } from '../analysis/trial-context.ts';
import { have } from '../outcome.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { meanOf, valueAt } from '../signal/index.ts';
import type { ElementaryError } from './errors.ts';
import type { Load } from './loads.ts';

/**
 * The same trial with one error added (sign 1) or taken off (sign -1): forces of the plates, their sums, and every level read from them.
 *
 * The instants stay where they are: what another onset would give is told apart from this, and a flat top has no instant of its own.
 */
export function disturbed(
  trial: TrialContext,
  loads: readonly Load[],
  error: ElementaryError,
  sign: 1 | -1,
): TrialContext {
  const forces = error.onForce || error.late ? disturbedForces(trial.forces, loads, error, sign) : trial.forces;
  const { events, bodyWeight } = trial;
  const moves = (plate: number) => error.plates === undefined || error.plates.includes(plate);
  const standing = loads.reduce(
    (sum, load, i) => (load.inTotal && moves(i) ? sum + (error.onForce?.(load.standing) ?? 0) : sum),
    0,
  );
  const onWeight = (error.reachesWeight ? standing : 0) + (error.onWeight ?? 0);
  const { baseline, peak } = events;
  return {
    ...trial,
    forces,
    unfiltered: forces,
    events: {
      ...events,
      quietLevel: events.quietLevel + sign * standing,
      peak: { ...peak, force: forces.total[peak.index] as number },
      baseline: baseline.ok
        ? have({ ...baseline.value, mean: meanOf(forces.total, baseline.value.start, baseline.value.end) })
        : baseline,
    },
    bodyWeight: bodyWeight.ok
      ? have({ ...bodyWeight.value, value: bodyWeight.value.value + sign * onWeight })
      : bodyWeight,
  };
}

/**
 * Forces with one error added or taken off.
 *
 * @param zeroedOver samples over which each plate's zero was taken, so that what the error leaves there goes off again
 */
export function disturbedForces(
  forces: TrialContext['forces'],
  loads: readonly Load[],
  { onForce, late, plates, span }: ElementaryError,
  sign: 1 | -1,
  zeroedOver?: SampleSpan,
): TrialContext['forces'] {
  const total = forces.total.slice();
  const left = forces.left?.slice();
  const right = forces.right?.slice();
  loads.forEach(({ side, force, inTotal }, plate) => {
    if (plates !== undefined && !plates.includes(plate)) return;
    const own = side === 'left' ? left : side === 'right' ? right : undefined;
    const samples = sign * (late ?? 0) * forces.sampleRate;
    const errorAt = (i: number): number => {
      const shown = force[i] as number;
      return (
        (onForce === undefined ? 0 : sign * onForce(shown)) +
        (samples === 0 ? 0 : valueWithin(force, i - samples) - shown)
      );
    };
    const [start, end] = [Math.max(0, span?.start ?? 0), Math.min(force.length, span?.end ?? force.length)];
    const zero = zeroedOver === undefined ? 0 : meanWithin(errorAt, zeroedOver, { start, end });
    for (let i = start; i < end; i++) {
      const added = errorAt(i) - zero;
      if (inTotal) total[i] = (total[i] as number) + added;
      if (own) own[i] = (own[i] as number) + added;
    }
  });
  return { ...forces, total, ...(left ? { left } : {}), ...(right ? { right } : {}) };
}

/** Mean over a span of what is there only in a part of it. */
function meanWithin(at: (i: number) => number, over: SampleSpan, part: SampleSpan): number {
  let sum = 0;
  for (let i = Math.max(over.start, part.start); i < Math.min(over.end, part.end); i++) sum += at(i);
  return sum / (over.end - over.start);
}

/** Value between samples; the ends hold. */
export const valueWithin = (force: Float64Array, position: number): number =>
  valueAt(force, Math.min(force.length - 1, Math.max(0, position)));
