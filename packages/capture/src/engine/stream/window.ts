import type { Block, Moments } from './block.ts';

/** Mean and SD over consecutive blocks of equal length, from their moments. */
export function momentsOver(
  blocks: readonly Block[],
  of: (block: Block) => Moments,
  from = 0,
  to = blocks.length,
): { mean: number; sd: number } {
  const count = to - from;
  let sum = 0;
  for (let b = from; b < to; b++) sum += of(blocks[b] as Block).mean;
  const mean = sum / count;
  let squares = 0;
  let samples = 0;
  for (let b = from; b < to; b++) {
    const block = blocks[b] as Block;
    const width = block.end - block.start;
    const moments = of(block);
    const d = moments.mean - mean;
    squares += moments.squares + width * d * d;
    samples += width;
  }
  return { mean, sd: samples > 1 ? Math.sqrt(squares / (samples - 1)) : 0 };
}

export const totalOf = (block: Block): Moments => block.total;

/** Largest minus smallest block mean of the total. */
export function rangeOver(blocks: readonly Block[]): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { total } of blocks) {
    if (total.mean < low) low = total.mean;
    if (total.mean > high) high = total.mean;
  }
  return high - low;
}
