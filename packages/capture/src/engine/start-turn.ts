import type { TurnPlan } from './config.ts';
import type { Machine } from './machine.ts';
import { newPerson, type Person } from './person.ts';
import { stayOn } from './phases/earlier-weight.ts';
import type { Turn } from './state.ts';
import { endTurn } from './turn.ts';

/** Begins a turn: plates are zeroed first, unless the same person goes on with the next test without having left them. */
export function startTurn(machine: Machine, plan: TurnPlan): void {
  endTurn(machine, 'next-athlete');
  const person = machine.people.get(plan.person) ?? newPerson(plan);
  machine.people.set(plan.person, person);
  person.plan = plan;
  if (plan.painStopped === true) person.painStopped = true;
  if (plan.weighed !== undefined) person.lastBodyWeight = plan.weighed.bodyWeight;
  if (plan.zeros !== undefined) machine.rig?.take(plan.zeros);
  restsFrom(machine, person, plan.rest);
  machine.turnNumber++;
  const turn: Turn = {
    number: machine.turnNumber,
    person,
    armed: false,
    held: false,
    identified: false,
    unknown: plan.unknown === true,
    unsure: false,
    tensionAsked: false,
    zeroed: false,
    zeroSd: 0,
    movedAccepted: false,
    wasOn: false,
    mayBoard: false,
    weighAgain: false,
  };
  machine.turn = turn;
  machine.attempt = {};
  if (!stayOn(machine, turn)) machine.enter('zero', 'next-athlete');
  machine.state();
}

/** A rest that began with another test goes on in this one. It is never too long: this test begins with efforts of its own. */
function restsFrom(machine: Machine, person: Person, rest: TurnPlan['rest']): void {
  if (rest === undefined) return;
  const since = machine.now - machine.samples(rest.elapsed);
  // The engine knows the end of its own efforts to the sample.
  if (person.rest !== undefined && person.rest.since >= since) return;
  person.rest = { since, minimum: rest.minimum, maximum: rest.maximum, over: false, tooLong: true };
}
