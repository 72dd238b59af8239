import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import type { TrialEnd } from '../trial.ts';
import { closeJump } from './close-jump.ts';
import { jumpBlock, watchForJump } from './jump.ts';
import { closePull, pullBlock, watchForPull } from './pull.ts';

/** Sees the effort of the test begin. @returns true when the phase has become its own */
export function watchForEffort(machine: Machine, turn: Turn, block: Block): boolean {
  const { jumpTest } = machine;
  return jumpTest === undefined ? watchForPull(machine, turn, block) : watchForJump(machine, turn, block, jumpTest);
}

/** Follows the effort under way. */
export function effortBlock(machine: Machine, turn: Turn, block: Block): void {
  if (machine.phase === 'jump') jumpBlock(machine, turn, block);
  else pullBlock(machine, turn, block);
}

/**
 * Ends the effort under way, if there is one.
 *
 * @param end first sample after the trial
 */
export function closeEffort(machine: Machine, turn: Turn, ended: TrialEnd, end: number): void {
  if (machine.phase === 'pull') closePull(machine, turn, ended, end);
  else if (machine.phase === 'jump') closeJump(machine, turn, ended, end);
}
