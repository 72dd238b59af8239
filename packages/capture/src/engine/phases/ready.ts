import { gateOf } from '../gates.ts';
import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import { startCount } from './cue.ts';
import { watchForEffort } from './effort.ts';
import { askTension } from './identity.ts';
import { watchTension } from './tension.ts';

/** Ready: tension in the band and steady; hands-free and armed, the count starts by itself. */
export function readyBlock(machine: Machine, turn: Turn, block: Block): void {
  if (watchForEffort(machine, turn, block)) return;
  watchTension(machine, block);
  relaxWhenLong(machine, block);
  const { steadySince, rules } = machine;
  if (!machine.handsFree || !turn.armed || steadySince === undefined || gateOf(machine) !== undefined) return;
  if (block.end - steadySince < machine.samples(rules.cue.delay) || askTension(machine, turn)) return;
  startCount(machine, 'steady');
}

/** Tension held steady for long without a cue tires: let it go. */
function relaxWhenLong(machine: Machine, block: Block): void {
  const { tenseSince, rules, jumpTest } = machine;
  // Standing does not tire; a held squat does.
  if (jumpTest !== undefined && jumpTest.kind !== 'squat') return;
  if (tenseSince === undefined || block.end - tenseSince < machine.samples(rules.ready.relaxAfter)) return;
  machine.say('relax');
  machine.mark('relax', block.end);
  machine.tenseSince = block.end;
}
