import type { Machine } from './machine.ts';
import { closeEffort } from './phases/effort.ts';
import type { RefusalCode } from './refusal.ts';
import { zeroAgain } from './turn.ts';

/**
 * The machine was asleep, or stood still for long. A pull that ran through it cannot be judged; a count is void; nothing is cued
 * before the zero was taken again and somebody said that the plates run as before.
 */
export function wokeUp(machine: Machine, { seconds }: { readonly seconds: number }): RefusalCode | undefined {
  const { turn } = machine;
  machine.rateUnchecked = true;
  machine.mark('woke up', machine.now, { seconds });
  machine.alert('woke-up', 'The machine was asleep. Zero and rate are checked before the next cue.');
  if (turn === undefined) return undefined;
  closeEffort(machine, turn, 'signal-lost', machine.now);
  zeroAgain(machine, turn, 'woke-up');
  return undefined;
}
