import type { Machine } from './machine.ts';
import type { Block } from './stream/block.ts';

/** Least load for a share of the feet, N. */
const leastLoad = 20;

/** Live values, at most so many a second as the configuration says, on blocks that the sample index decides. */
export function live(machine: Machine, block: Block): void {
  const width = block.end - block.start;
  const wanted = machine.config.liveRate ?? 25;
  const every = Math.max(1, Math.ceil(machine.rate / (wanted * width) - 1e-9));
  if ((block.end / width) % every !== 0) return;
  const { left, right, total } = block;
  const feet = (left ?? 0) + (right ?? 0);
  machine.emit({
    kind: 'live',
    total: total.mean,
    ...(left === undefined ? {} : { left }),
    ...(right === undefined ? {} : { right }),
    ...(left !== undefined && right !== undefined && feet >= leastLoad ? { shareRight: (100 * right) / feet } : {}),
    ...(machine.turn?.weighing === undefined ? {} : { tension: total.mean - machine.base }),
    steady: machine.steadySince !== undefined,
    rate: machine.rig?.rate ?? machine.rate,
  });
}
