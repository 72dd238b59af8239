import type { Triple } from './wrench.ts';

/** A plate's place in the laboratory: its centre, and its axes as the columns of `rotation` (given row by row). */
export interface PlateFrame {
  readonly centre: Triple;
  readonly rotation: readonly [Triple, Triple, Triple];
}

const plus = (a: Triple, b: Triple): Triple => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a: Triple, k: number): Triple => [a[0] * k, a[1] * k, a[2] * k];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

function unit(a: Triple): Triple | null {
  const length = Math.hypot(...a);
  return length > 0 && Number.isFinite(length) ? times(a, 1 / length) : null;
}

/**
 * Where a plate lies, from its four corners (corner k lies in quadrant k of the plate: +x+y, -x+y, -x-y, +x-y).
 *
 * Centre = mean of the corners; `X = unit((c1 + c4)/2 - (c2 + c3)/2)`, `Y* = (c1 + c2)/2 - (c3 + c4)/2`,
 * `Z = unit(X x Y*)`, `Y = Z x X`.
 *
 * @returns null when the corners span no plane (all zero, all on a line), as some files have them
 *
 * Source: C3D User Guide, FORCE_PLATFORM:CORNERS (c3d.org).
 */
export function plateFrame(corners: readonly [Triple, Triple, Triple, Triple]): PlateFrame | null {
  const [c1, c2, c3, c4] = corners;
  const x = unit(times(minus(plus(c1, c4), plus(c2, c3)), 0.5));
  if (x === null) return null;
  const z = unit(cross(x, times(minus(plus(c1, c2), plus(c3, c4)), 0.5)));
  if (z === null) return null;
  const y = cross(z, x);
  return {
    centre: times(plus(plus(c1, c2), plus(c3, c4)), 0.25),
    rotation: [
      [x[0], y[0], z[0]],
      [x[1], y[1], z[1]],
      [x[2], y[2], z[2]],
    ],
  };
}

/** A direction (a force, a free moment) from plate axes to laboratory axes: `R v`. */
export function directionToLaboratory(frame: PlateFrame, v: Triple): Triple {
  const along = (row: Triple): number => row[0] * v[0] + row[1] * v[1] + row[2] * v[2];
  return [along(frame.rotation[0]), along(frame.rotation[1]), along(frame.rotation[2])];
}

/** A place on the plate to laboratory coordinates: `centre + R p`. */
export function placeToLaboratory(frame: PlateFrame, p: Triple): Triple {
  return plus(frame.centre, directionToLaboratory(frame, p));
}
