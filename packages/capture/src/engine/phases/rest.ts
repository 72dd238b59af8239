import type { Machine } from '../machine.ts';
import type { Person } from '../person.ts';
import { isEffort } from '../phase.ts';
import type { SayingId } from '../sayings/sayings.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import { enterSetUp } from './set-up.ts';

const lastWords: Readonly<Record<string, SayingId>> = {
  complete: 'done',
  'not-cleared': 'not-cleared',
  'submaximal-only': 'submaximal-only',
  'pain-stopped': 'pain-stopped',
};

/** The test is done and another one of the same person follows. */
const lastOfTest = { here: 'next-test', later: 'test-done' } as const;

/** Verdict: hands-free it stands for a while, then rest. The operator advances. */
export function verdictBlock(machine: Machine, turn: Turn, block: Block): void {
  if (!machine.handsFree) return;
  const { cue } = machine.rules;
  if (block.end - machine.since >= machine.samples(cue.verdictSeconds)) enterRest(machine, turn, 'verdict-shown');
}

export function enterRest(machine: Machine, turn: Turn, because: string): void {
  machine.enter('rest', because);
  sayRest(machine, turn);
  const { rest } = turn.person;
  if (rest !== undefined) tell(machine, turn.person, 'began');
}

/** Says how the rest stands. */
export function sayRest(machine: Machine, { person }: Turn): void {
  const { effort } = machine;
  if (effort.kind === 'none') {
    const follows = effort.because === 'complete' ? person.plan.goesOn : undefined;
    machine.say(follows === undefined ? (lastWords[effort.because] ?? 'done') : lastOfTest[follows]);
  } else if (person.warmUpAgain) machine.say('warm-up-again');
  else machine.say(person.rest?.over === true ? 'rest-over' : 'rest');
}

/** Rest of the athlete on the rig: counts down, then hands-free goes on. */
export function restBlock(machine: Machine, turn: Turn, block: Block): void {
  const { rest } = turn.person;
  if (machine.effort.kind === 'none') return;
  // Down to zero: who advances by hand waits for it.
  if (rest !== undefined)
    machine.countdown('rest', rest.over ? 0 : rest.minimum - (block.end - rest.since) / machine.rate);
  if (rest !== undefined && !rest.over) return;
  const ready = !machine.weighted || machine.presence.on;
  if (machine.handsFree && ready) enterSetUp(machine, turn, 'rest-over');
}

/** Rest of everybody, on the rig or not, counted by samples. */
export function restOfAll(machine: Machine, end: number): void {
  for (const person of machine.people.values()) {
    const { rest } = person;
    if (rest === undefined) continue;
    const elapsed = (end - rest.since) / machine.rate;
    const here = machine.turn?.person === person;
    if (!rest.over && elapsed >= rest.minimum) {
      rest.over = true;
      tell(machine, person, 'over');
      if (here && machine.phase === 'rest' && machine.effort.kind !== 'none') machine.say('rest-over');
    }
    if (!rest.tooLong && elapsed >= rest.maximum && !busy(machine, here)) {
      rest.tooLong = true;
      person.warmUpAgain = machine.rules.warmUp.length > 0;
      tell(machine, person, 'too-long');
      const { turn, phase } = machine;
      if (turn?.person !== person || machine.effort.kind !== 'submaximal') continue;
      if (phase === 'set-up' || phase === 'ready') enterSetUp(machine, turn, 'rest-too-long');
      else if (phase === 'rest' && !turn.held) {
        machine.enter('rest', 'rest-too-long');
        sayRest(machine, turn);
      }
    }
  }
}

/** In the middle of an effort the rest is over, however long ago. */
const busy = (machine: Machine, here: boolean): boolean =>
  here && (machine.phase === 'cue' || isEffort(machine.phase) || machine.phase === 'verdict');

/** A person ended the rest before its time. */
export function skipRest(machine: Machine, person: Person): void {
  if (person.rest === undefined) return;
  person.rest.over = true;
  tell(machine, person, 'skipped');
  machine.mark('rest skipped', machine.now, { person: person.ref });
}

function tell(machine: Machine, person: Person, state: 'began' | 'over' | 'too-long' | 'skipped'): void {
  const { rest } = person;
  if (rest === undefined) return;
  const { since, minimum, maximum } = rest;
  machine.emit({ kind: 'rest', person: person.ref, state, since, minimum, maximum });
}
