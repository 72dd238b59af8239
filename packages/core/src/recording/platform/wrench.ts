/** Forces (N) and moments (N times the length unit of the geometry, usually N.mm) in a plate's own axes. */
export interface Wrench {
  readonly fx: number;
  readonly fy: number;
  readonly fz: number;
  readonly mx: number;
  readonly my: number;
  readonly mz: number;
}

/** Three numbers along x, y, z. */
export type Triple = readonly [number, number, number];

/**
 * A wrench moved from the measurement origin of the plate to the centre of its top surface (types 2 and 4).
 *
 * `Mx' = Mx - (oy Fz - oz Fy)`, `My' = My - (oz Fx - ox Fz)`, `Mz' = Mz - (ox Fy - oy Fx)`.
 *
 * @param wrench about the measurement origin
 * @param origin vector from the measurement origin to the centre of the top surface, plate axes
 * @returns the wrench about the centre of the surface; forces unchanged
 *
 * Source: C3D User Guide, FORCE_PLATFORM types 2 and 4 (c3d.org).
 */
export function atSurface(wrench: Wrench, origin: Triple): Wrench {
  const [ox, oy, oz] = origin;
  const { fx, fy, fz } = wrench;
  return {
    fx,
    fy,
    fz,
    mx: wrench.mx - (oy * fz - oz * fy),
    my: wrench.my - (oz * fx - ox * fz),
    mz: wrench.mz - (ox * fy - oy * fx),
  };
}

/** Six values in the order Fx, Fy, Fz, Mx, My, Mz as a wrench. */
export function wrenchOf(values: readonly number[]): Wrench {
  const [fx = 0, fy = 0, fz = 0, mx = 0, my = 0, mz = 0] = values;
  return { fx, fy, fz, mx, my, mz };
}
