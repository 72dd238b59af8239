import type { Wrench } from './wrench.ts';

/** Where the force acts on the surface, in the length unit of the geometry, and the free moment about that point. */
export interface CentreOfPressure {
  readonly x: number;
  readonly y: number;
  /** `Tz`, in N times the length unit. */
  readonly freeMoment: number;
}

/** Below this vertical force (N) there is no centre of pressure: its noise grows as 1/Fz. Default of this project. */
export const leastForceForCentre = 20;

/**
 * Centre of pressure and free moment of a wrench about the surface centre, plate axes.
 *
 * `x = -My'/Fz`, `y = Mx'/Fz`, `Tz = Mz' - (x Fy - y Fx)`.
 *
 * @param surface wrench about the centre of the surface (`atSurface`, `fromEightSensors`)
 * @param leastForce N; below it in magnitude the answer is null, for "nothing stands there", never (0, 0)
 *
 * Source: C3D User Guide, force platform calculations (c3d.org).
 */
export function centreOfPressure(surface: Wrench, leastForce: number = leastForceForCentre): CentreOfPressure | null {
  const { fx, fy, fz, mx, my, mz } = surface;
  // The comparison is written so that NaN, too, has no centre.
  if (!(Math.abs(fz) >= leastForce)) return null;
  const x = -my / fz;
  const y = mx / fz;
  return { x, y, freeMoment: mz - (x * fy - y * fx) };
}

/**
 * The centre of pressure a plate of type 1 gives by itself: Px, Py and Mz pass through unchanged while loaded.
 *
 * @param six Fx, Fy, Fz, Px, Py, Mz
 */
export function givenCentre(six: readonly number[], leastForce: number = leastForceForCentre): CentreOfPressure | null {
  const [, , fz = 0, x = 0, y = 0, freeMoment = 0] = six;
  return Math.abs(fz) >= leastForce ? { x, y, freeMoment } : null;
}

/** One loaded plate's share: vertical force in N (positive when pressed) at a place in the laboratory. */
export interface LoadedPoint {
  readonly force: number;
  readonly x: number;
  readonly y: number;
}

/**
 * Several plates as one: the sum of the forces at the force-weighted mean of the centres, `sum(Fz CoP) / sum(Fz)`.
 * Null when the sum is below `leastForce` (N).
 */
export function combinedCentre(
  plates: readonly LoadedPoint[],
  leastForce: number = leastForceForCentre,
): LoadedPoint | null {
  const force = plates.reduce((sum, plate) => sum + plate.force, 0);
  if (!(Math.abs(force) >= leastForce)) return null;
  const weighted = (of: (plate: LoadedPoint) => number): number =>
    plates.reduce((sum, plate) => sum + plate.force * of(plate), 0) / force;
  return { force, x: weighted((plate) => plate.x), y: weighted((plate) => plate.y) };
}
