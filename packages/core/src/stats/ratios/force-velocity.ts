import { have, lack, type Outcome } from '../../outcome.ts';
import { straightLine } from '../regression.ts';

/** Mean force (N), velocity (m/s) and power (W) of one push-off. */
export interface PushOff {
  readonly force: number;
  readonly velocity: number;
  readonly power: number;
}

/**
 * Mean force, velocity and power of a push-off from the height of a jump.
 *
 * F = m g (h / h_po + 1); v = sqrt(g h / 2); P = F v
 *
 * @param mass of body and load, kg
 * @param height m
 * @param pushOff h_po: way of the push-off, leg length stretched less height in the start position, m
 * Source: Samozino et al. 2008, J Biomech 41:2940-2945 (from memory).
 */
export function pushOffOf(mass: number, height: number, pushOff: number, gravity: number): PushOff {
  const force = mass * gravity * (height / pushOff + 1);
  const velocity = Math.sqrt((gravity * height) / 2);
  return { force, velocity, power: force * velocity };
}

/** A straight line of force over velocity through jumps with several loads. */
export interface ForceVelocityProfile {
  /** Force at no velocity, N; velocity at no force, m/s; largest power, W. */
  readonly f0: number;
  readonly v0: number;
  readonly powerMax: number;
  /** Slope, N.s/m; negative. */
  readonly slope: number;
  readonly r2: number;
  readonly loads: number;
  /** r^2 of 0.95 or more (a proposal): otherwise the line is shown and not used. */
  readonly accepted: boolean;
}

/** So many loads make a profile, and so well must they lie on the line. */
const leastLoads = 4;
const leastR2 = 0.95;

/**
 * Force-velocity profile: the least-squares line F = F0 - a v; V0 = F0 / a; Pmax = F0 V0 / 4.
 *
 * @param pushes one for each load
 * @returns `too-few-values` under four loads; `no-fit` when force does not fall with velocity
 * Source: Samozino et al. 2008, J Biomech 41:2940-2945 (from memory); the limits are proposals of this program.
 */
export function forceVelocityProfile(
  pushes: readonly Pick<PushOff, 'force' | 'velocity'>[],
): Outcome<ForceVelocityProfile> {
  if (pushes.length < leastLoads) return lack('too-few-values');
  const line = straightLine(
    pushes.map(({ velocity }) => velocity),
    pushes.map(({ force }) => force),
  );
  if (line === undefined || !(line.slope < 0) || !(line.intercept > 0)) return lack('no-fit');
  const f0 = line.intercept;
  const v0 = -f0 / line.slope;
  const r2 = line.r * line.r;
  return have({
    f0,
    v0,
    powerMax: (f0 * v0) / 4,
    slope: line.slope,
    r2,
    loads: pushes.length,
    accepted: r2 >= leastR2,
  });
}
