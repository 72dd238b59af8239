import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf } from '../../signal/index.ts';
import { studentT } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import { type StraightLine, straightLine } from '../regression.ts';

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
 * @param pushOff h_po: push-off distance, leg length stretched less height in the start position, m
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
  /** 95 % intervals from the scatter of the points about the line, with loads - 2 degrees of freedom; wide where there are few. */
  readonly intervals: { readonly f0: Estimate; readonly v0: Estimate; readonly powerMax: Estimate };
  /** r^2 of 0.95 or more (a proposal): otherwise the line is shown and not used. */
  readonly accepted: boolean;
}

/** So many loads make a profile. */
export const leastLoads = 4;
/** So well must they lie on the line. */
const leastR2 = 0.95;

/**
 * Intervals of F0, V0 = -a / b and Pmax = -a^2 / (4 b) of a line a + b v: first-order propagation with the covariance of a and b,
 * cov = -mean(v) s_b^2 (JCGM 100:2008 5.2.2), times Student's t.
 */
function intervalsOf({ slope, intercept, slopeError, interceptError, n }: StraightLine, meanVelocity: number) {
  const t = studentT.quantile(upperProbability(usualLevel), n - 2);
  const [a, b] = [interceptError / intercept, slopeError / slope];
  const shared = (-meanVelocity * slopeError * slopeError) / (intercept * slope);
  const about = (value: number, power: number, slopes: number): Estimate => {
    const relative = Math.sqrt(Math.max(0, (power * a) ** 2 + slopes * (b * b - 2 * power * shared)));
    return estimate(value, value - t * value * relative, value + t * value * relative, usualLevel);
  };
  const v0 = -intercept / slope;
  return { f0: about(intercept, 1, 0), v0: about(v0, 1, 1), powerMax: about((intercept * v0) / 4, 2, 1) };
}

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
    intervals: intervalsOf(line, meanOf(pushes.map(({ velocity }) => velocity))),
    accepted: r2 >= leastR2,
  });
}
