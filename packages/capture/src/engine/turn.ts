import type { Machine } from './machine.ts';
import { closeEffort } from './phases/effort.ts';
import type { Turn } from './state.ts';

/** Ends the turn, if there is one; a pull under way ends first. */
export function endTurn(machine: Machine, because: string): void {
  const { turn } = machine;
  if (turn === undefined) return;
  closeEffort(machine, turn, 'aborted', machine.now);
  machine.voidCount(because);
  machine.closeQuestions('turn-ended');
  machine.attempt = {};
  machine.emit({ kind: 'turn-ended', turn: turn.number, person: turn.person.ref, because });
  machine.mark('turn ended', machine.now, { turn: turn.number, person: turn.person.ref, because });
  machine.turn = undefined;
  machine.enter('waiting', because);
  machine.state();
}

/** Athlete left the plates in mid-turn. */
export function stepOff(machine: Machine, turn: Turn): void {
  const since = machine.presence.since;
  machine.mark('step-off', since, { turn: turn.number });
  turn.away = { since };
  machine.voidCount('stepped-off');
  machine.attempt = {};
  machine.recent = [];
  if (machine.effort.kind === 'none' && (machine.phase === 'rest' || machine.phase === 'verdict')) {
    endTurn(machine, 'complete');
    return;
  }
  if (machine.phase === 'ready' || machine.phase === 'cue') machine.enter('set-up', 'stepped-off');
  if (machine.phase === 'stand-still' || machine.phase === 'set-up') machine.say('step-back-on');
}

/** Athlete came back in time: the same turn, and the weighing stands if the zero held. */
export function stepBackOn(machine: Machine, turn: Turn): void {
  const held = turn.away?.held;
  delete turn.away;
  if (turn.glance !== undefined) turn.glance = [];
  machine.mark('step-on', machine.presence.since, { turn: turn.number, zero: held === false ? 'moved' : 'held' });
  if (held !== false) {
    // Bar and straps were let go of.
    if (machine.phase === 'set-up') machine.enter('set-up', 'returned');
    return;
  }
  machine.say('zero-not-held');
  zeroAgain(machine, turn, 'zero-not-held');
}

/** Back to the zero: what was weighed with the old one is void. */
export function zeroAgain(machine: Machine, turn: Turn, because: string): void {
  turn.zeroed = false;
  turn.identified = false;
  turn.wasOn = false;
  turn.mayBoard = false;
  turn.movedAccepted = false;
  delete turn.weighing;
  delete turn.glance;
  delete turn.away;
  delete turn.boarded;
  machine.voidCount(because);
  machine.closeQuestions(because);
  machine.attempt = {};
  machine.unloaded.reset();
  machine.enter('zero', because);
}
