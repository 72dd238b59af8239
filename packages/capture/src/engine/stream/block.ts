import type { KeptSamples } from './kept-samples.ts';
import type { RigLayout } from './layout.ts';

/** About 20 ms of forces; phases are decided block by block, on boundaries that depend on the sample index alone. */
export interface Block {
  readonly start: number;
  readonly end: number;
  /** False when samples of it are missing. */
  readonly whole: boolean;
  /** Mean and sum of squares about it, of each plate, zeroed. */
  readonly plates: readonly Moments[];
  readonly total: Moments;
  readonly left: number | undefined;
  readonly right: number | undefined;
}

export interface Moments {
  readonly mean: number;
  readonly squares: number;
}

const blockSeconds = 0.02;

/** Samples in a block: 20 ms, at least two. */
export const blockLength = (rate: number): number => Math.max(2, Math.floor(blockSeconds * rate + 0.5));

/**
 * Sums up one block from the kept samples, always in the same order, so that the packets it came in do not matter.
 *
 * @param zeros zero of each force channel, in the unit of the test
 * @returns undefined when every sample is missing
 */
export function blockOf(
  kept: KeptSamples,
  layout: RigLayout,
  zeros: readonly number[],
  start: number,
  end: number,
): Block | undefined {
  const width = end - start;
  const total = new Float64Array(width);
  const plates: Float64Array[] = [];
  let left: number | undefined;
  let right: number | undefined;
  for (const plate of layout.plates) {
    const force = new Float64Array(width);
    for (const c of plate.channels) {
      const { channel, factor } = layout.channels[c] as RigLayout['channels'][number];
      const ring = kept.ring(c);
      const gain = channel.scale * factor;
      const zero = (zeros[c] as number) + channel.offset * gain;
      let at = start % kept.capacity;
      for (let i = 0; i < width; i++) {
        force[i] = (force[i] as number) + (ring[at] as number) * gain - zero;
        if (++at === kept.capacity) at = 0;
      }
    }
    for (let i = 0; i < width; i++) total[i] = (total[i] as number) + (force[i] as number);
    plates.push(force);
  }
  const sum = moments(total);
  if (sum === undefined) return undefined;
  const each = plates.map((force) => moments(force, total) as Moments);
  layout.plates.forEach((plate, at) => {
    const mean = (each[at] as Moments).mean;
    if (plate.side === 'left') left = (left ?? 0) + mean;
    if (plate.side === 'right') right = (right ?? 0) + mean;
  });
  let whole = true;
  for (let i = 0; i < width; i++) if (Number.isNaN(total[i])) whole = false;
  return { start, end, whole, plates: each, total: sum, left, right };
}

/** Over the samples that `where` has. */
function moments(force: Float64Array, where = force): Moments | undefined {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < force.length; i++) {
    if (Number.isNaN(where[i])) continue;
    sum += force[i] as number;
    count++;
  }
  if (count === 0) return undefined;
  const mean = sum / count;
  let squares = 0;
  for (let i = 0; i < force.length; i++) {
    if (Number.isNaN(where[i])) continue;
    const d = (force[i] as number) - mean;
    squares += d * d;
  }
  return { mean, squares };
}
