import type { TurnPlan } from './config.ts';
import type { Machine } from './machine.ts';
import { newPerson } from './person.ts';
import { afterWeighing } from './phases/stand-still.ts';
import type { Turn } from './state.ts';

/** The turn is another athlete's than was thought when it began: theirs are rest, warm-up and trials from here on. */
export function identifyAs(machine: Machine, turn: Turn, plan: TurnPlan): void {
  const person = machine.people.get(plan.person) ?? newPerson(plan);
  machine.people.set(plan.person, person);
  person.plan = plan;
  if (plan.painStopped === true) person.painStopped = true;
  if (turn.weighing !== undefined) person.lastBodyWeight = turn.weighing.bodyWeight;
  const before = turn.person.ref;
  turn.person = person;
  turn.identified = true;
  turn.unknown = false;
  machine.mark('identified', machine.now, { turn: turn.number, before, person: person.ref });
  machine.closeQuestions('identified');
  machine.attempt = {};
  afterWeighing(machine, turn, 'identified');
  machine.state();
}
