import type { Machine } from './machine.ts';
import { isEffort } from './phase.ts';
import { closeEffort } from './phases/effort.ts';
import { enterRest } from './phases/rest.ts';
import type { RefusalCode } from './refusal.ts';

/** Stops at once whatever runs. Hands-free cues need arming again. */
export function abort(machine: Machine): RefusalCode | undefined {
  const { turn, phase } = machine;
  if (turn === undefined) return 'no-turn';
  turn.armed = false;
  machine.voidCount('aborted');
  if (isEffort(phase)) {
    machine.say('stop');
    closeEffort(machine, turn, 'aborted', machine.now);
  } else {
    machine.attempt = {};
    if (phase === 'stand-still') machine.recent = [];
    if (phase === 'ready' || phase === 'cue') {
      machine.say('stop');
      machine.enter('set-up', 'aborted');
    }
  }
  machine.state();
  return undefined;
}

/** Freezes the turn. A pull under way is recorded to its end. */
export function hold(machine: Machine): RefusalCode | undefined {
  const { turn } = machine;
  if (turn === undefined) return 'no-turn';
  turn.held = true;
  machine.voidCount('held');
  if (machine.phase === 'cue') {
    machine.attempt = {};
    machine.enter('ready', 'held');
  }
  if (!isEffort(machine.phase)) machine.say('on-hold');
  machine.state();
  return undefined;
}

/** Pain: everything stops, and no maximal effort of this athlete until a named person releases it. */
export function painStop(
  machine: Machine,
  { by, person: ref }: { by: string; person?: string },
): RefusalCode | undefined {
  const { turn } = machine;
  const person = ref === undefined ? turn?.person : machine.people.get(ref);
  if (person === undefined) return ref === undefined ? 'no-turn' : 'unknown-person';
  const here = turn !== undefined && turn.person === person;
  if (here) {
    turn.armed = false;
    machine.voidCount('pain');
    machine.say('stop');
    closeEffort(machine, turn, 'pain', machine.now);
    machine.attempt = {};
  }
  person.painStopped = true;
  machine.mark('pain stop', machine.now, { person: person.ref, by });
  machine.alert('pain-stop', 'Stopped for pain. No further maximal effort until a named person releases it.');
  if (here) {
    if (turn.weighing !== undefined || !machine.weighted) enterRest(machine, turn, 'pain-stop');
    machine.state();
  }
  return undefined;
}
