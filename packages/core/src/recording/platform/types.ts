import { type Triple, type Wrench, wrenchOf } from './wrench.ts';

/**
 * The wrench of a plate with eight sensors (type 3) about the centre of its top surface.
 *
 * Sums: `Fx = Fx12 + Fx34`, `Fy = Fy14 + Fy23`, `Fz = Fz1 + Fz2 + Fz3 + Fz4`; moments `Mx = b (Fz1 + Fz2 - Fz3 - Fz4)`,
 * `My = a (-Fz1 + Fz2 + Fz3 - Fz4)`, `Mz = b (-Fx12 + Fx34) + a (Fy14 - Fy23)`; then to the surface
 * `Mx' = Mx + az0 Fy`, `My' = My - az0 Fx`.
 *
 * @param eight Fx12, Fx34, Fy14, Fy23, Fz1, Fz2, Fz3, Fz4 in N
 * @param origin (a, b, az0): sensor offsets from the axes and the distance to the surface (negative)
 *
 * Source: C3D User Guide, FORCE_PLATFORM type 3 (c3d.org).
 */
export function fromEightSensors(eight: readonly number[], origin: Triple): Wrench {
  const [fx12 = 0, fx34 = 0, fy14 = 0, fy23 = 0, fz1 = 0, fz2 = 0, fz3 = 0, fz4 = 0] = eight;
  const [a, b, az0] = origin;
  const fx = fx12 + fx34;
  const fy = fy14 + fy23;
  return {
    fx,
    fy,
    fz: fz1 + fz2 + fz3 + fz4,
    mx: b * (fz1 + fz2 - fz3 - fz4) + az0 * fy,
    my: a * (-fz1 + fz2 + fz3 - fz4) - az0 * fx,
    mz: b * (-fx12 + fx34) + a * (fy14 - fy23),
  };
}

/**
 * A calibration matrix applied to six measured values (type 4): corrected = C * measured.
 *
 * @param matrix six rows of six; rows 1 to 3 in N per measured unit, rows 4 to 6 in moment per measured unit
 * @param measured six scaled channel values, usually V
 * @returns Fx, Fy, Fz, Mx, My, Mz about the measurement origin
 *
 * Source: C3D User Guide, FORCE_PLATFORM:CAL_MATRIX (c3d.org).
 */
export function calibrated(matrix: readonly (readonly number[])[], measured: readonly number[]): Wrench {
  return wrenchOf(matrix.map((row) => row.reduce((sum, factor, i) => sum + factor * (measured[i] ?? 0), 0)));
}
