import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import type { QuietWindow } from '../stream/unloaded.ts';
import { earlierStands } from './earlier-weight.ts';
import { afterWeighing } from './stand-still.ts';

/** Zero: every plate under the limit and quiet for a second; one that moved asks first. */
export function zeroBlock(machine: Machine, turn: Turn, block: Block): void {
  const { rules, unloaded, presence, weighted } = machine;
  if (weighted && presence.on) {
    machine.sayOnce('step-off');
    return;
  }
  const waited = block.end - machine.since > machine.samples(rules.zero.sayAfter);
  // A zero is measured when it is asked for, not remembered.
  const quiet = unloaded.quiet !== undefined && unloaded.quiet.span.start >= machine.since ? unloaded.quiet : undefined;
  if (unloaded.since !== undefined) {
    const since = Math.max(machine.since, unloaded.since);
    machine.countdown('zero', rules.zero.quietSeconds - (block.end - since) / machine.rate);
  }
  if (quiet === undefined) {
    if (waited) machine.sayOnce('plates-not-quiet');
    return;
  }
  if (quiet.largest >= rules.zero.limit) {
    machine.sayOnce('plates-not-empty');
    return;
  }
  const question = machine.openQuestion('zero-moved');
  if (quiet.largest > rules.zero.moved && !turn.movedAccepted) {
    if (question === undefined) ask(machine, turn, quiet);
    return;
  }
  if (question !== undefined) machine.closeQuestion(question, 'moved-back');
  apply(machine, turn, quiet);
}

function ask(machine: Machine, turn: Turn, quiet: QuietWindow): void {
  const words = 'The zero moved by more than 10 N. Is something lying on a plate?';
  machine.ask('zero-moved', words, ['take-it', 'measure-again'], { moved: quiet.largest }, (answer) => {
    if (answer === 'take-it') turn.movedAccepted = true;
    else machine.unloaded.reset();
  });
}

function apply(machine: Machine, turn: Turn, quiet: QuietWindow): void {
  const { rig, unloaded } = machine;
  if (rig === undefined) return;
  rig.zero(quiet.span);
  turn.zeroed = true;
  turn.movedAccepted = false;
  turn.zeroSd = quiet.sd;
  unloaded.reset();
  const zeros = rig.zerosByName();
  machine.emit({ kind: 'zero', window: quiet.span, zeros });
  machine.mark('zero', quiet.span.end, { window: quiet.span, zeros });
  if (earlierStands(machine, turn)) return;
  if (machine.weighted) machine.enter('stand-still', 'zeroed');
  else afterWeighing(machine, turn, 'zeroed');
}
