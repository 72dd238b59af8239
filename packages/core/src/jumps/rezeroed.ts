import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { meanOf } from '../signal/index.ts';

/** Forces less what each plate read in the middle of a flight. */
export function rezeroed(forces: Forces, { start, end }: SampleSpan): Forces {
  const done = new Map<Float64Array, Float64Array>();
  const moved = (force: Float64Array): Float64Array => {
    const known = done.get(force);
    if (known) return known;
    const offset = meanOf(force, start, end);
    const made = force.map((value) => value - offset);
    done.set(force, made);
    return made;
  };
  return {
    ...forces,
    total: moved(forces.total),
    ...(forces.left ? { left: moved(forces.left) } : {}),
    ...(forces.right ? { right: moved(forces.right) } : {}),
    plates: forces.plates.map((plate) => ({ ...plate, force: moved(plate.force) })),
  };
}
