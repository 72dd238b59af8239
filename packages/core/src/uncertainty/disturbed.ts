import type { TrialContext } from '../analysis/trial-context.ts';
import { have } from '../outcome.ts';
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
  const forces = error.onForce || error.late ? disturbedForces(trial, loads, error, sign) : trial.forces;
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

function disturbedForces(
  { forces }: TrialContext,
  loads: readonly Load[],
  { onForce, late, plates }: ElementaryError,
  sign: 1 | -1,
): TrialContext['forces'] {
  const total = forces.total.slice();
  const left = forces.left?.slice();
  const right = forces.right?.slice();
  loads.forEach(({ side, force, inTotal }, plate) => {
    if (plates !== undefined && !plates.includes(plate)) return;
    const own = side === 'left' ? left : side === 'right' ? right : undefined;
    const samples = sign * (late ?? 0) * forces.sampleRate;
    for (let i = 0; i < force.length; i++) {
      const shown = force[i] as number;
      const added =
        (onForce === undefined ? 0 : sign * onForce(shown)) +
        (samples === 0 ? 0 : valueWithin(force, i - samples) - shown);
      if (inTotal) total[i] = (total[i] as number) + added;
      if (own) own[i] = (own[i] as number) + added;
    }
  });
  return { ...forces, total, ...(left ? { left } : {}), ...(right ? { right } : {}) };
}

/** Value between samples; the ends hold. */
export const valueWithin = (force: Float64Array, position: number): number =>
  valueAt(force, Math.min(force.length - 1, Math.max(0, position)));
