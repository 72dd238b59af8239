import type { PlateFrame } from './laboratory.ts';

const names = ['x', 'y', 'z'] as const;

/** An axis of the laboratory. */
export type LaboratoryAxis = (typeof names)[number];

/** How the floor lies in the laboratory. Its vertical axis is taken to point up. */
export interface Floor {
  readonly up: LaboratoryAxis;
  /** The axes of the floor seen from above: the first to the right, the second away from the eye. */
  readonly along: readonly [LaboratoryAxis, LaboratoryAxis];
}

/**
 * The floor that plates lie in: the laboratory's axis that comes nearest to the normal of each of them is the vertical one. Laboratories
 * have z or y up, and a file need not say which; its plates do.
 *
 * @returns undefined without plates, and where they do not lie in one floor
 */
export function floorOf(frames: readonly PlateFrame[]): Floor | undefined {
  const [up, ...others] = frames.map(({ rotation }) => {
    const size = rotation.map((row) => Math.abs(row[2]));
    return size.indexOf(Math.max(...size));
  });
  if (up === undefined || others.some((other) => other !== up)) return undefined;
  const name = (axis: number) => names[axis % 3] as LaboratoryAxis;
  // Right-handed: first x second = up.
  return { up: name(up), along: [name(up + 1), name(up + 2)] };
}

/** Whether a plate's own z points down. */
export const pointsDown = ({ rotation }: PlateFrame, { up }: Floor): boolean =>
  (rotation[names.indexOf(up)]?.[2] ?? 0) < 0;
