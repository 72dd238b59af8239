/** Several samples in a frame, as the numbers suggest. */
export interface FoundSamples {
  /** Samples a frame, and numbers a sample. */
  readonly samples: number;
  readonly width: number;
  /** True when this is likelier than one sample of all the numbers. */
  readonly likely: boolean;
}

/** More numbers than two plates of six components have are hardly one sample. */
const mostInSample = 12;

/**
 * Whether the numbers of a frame are several samples one after another: then each goes on from the one before it in the same frame at
 * least as evenly as from frame to frame. The fewest numbers a sample for which that is so; undefined where there are none.
 *
 * @param rows numbers of each frame
 */
export function findSamples(rows: readonly (readonly number[])[]): FoundSamples | undefined {
  const numbers = rows[0]?.length ?? 0;
  const whole = meanJump(rows, numbers);
  if (numbers < 4 || whole === 0) return undefined;
  for (let width = 1; width <= numbers / 2; width++) {
    if (numbers % width !== 0) continue;
    const jump = meanJump(rows, width);
    if (jump > 1.1 * whole) continue;
    return { samples: numbers / width, width, likely: jump < 0.5 * whole || numbers > mostInSample };
  }
  return undefined;
}

/** Mean step from one sample to the next, when a sample has so many numbers. */
function meanJump(rows: readonly (readonly number[])[], width: number): number {
  const flat = rows.flat();
  let sum = 0;
  for (let i = width; i < flat.length; i++) sum += Math.abs((flat[i] as number) - (flat[i - width] as number));
  return flat.length <= width ? 0 : sum / (flat.length - width);
}
