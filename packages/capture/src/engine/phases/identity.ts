import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Weighing } from '../trial.ts';
import { endTurn } from '../turn.ts';

/** Asks whether this is the athlete when the weight, or the share of the feet, is not what it was last time. */
export function askIdentity(machine: Machine, turn: Turn, weighing: Weighing): void {
  const { identity } = machine.rules;
  const { person } = turn;
  const last = person.lastBodyWeight;
  const usual = person.plan.usualShareRight;
  const weight = last === undefined ? 0 : Math.abs(weighing.bodyWeight - last) / last;
  const share = usual === undefined || weighing.shareRight === undefined ? 0 : Math.abs(weighing.shareRight - usual);
  const accept = () => {
    turn.identified = true;
    person.lastBodyWeight = weighing.bodyWeight;
  };
  if (weight <= identity.weightShare && share <= identity.sharePoints) {
    accept();
    return;
  }
  const data = {
    person: person.ref,
    because: weight > identity.weightShare ? 'body-weight' : 'standing-share',
    weighed: weighing.bodyWeight,
    ...(last === undefined ? {} : { last }),
    ...(weighing.shareRight === undefined ? {} : { shareRight: weighing.shareRight }),
    ...(usual === undefined ? {} : { usualShareRight: usual }),
  };
  machine.ask('is-this-the-athlete', 'Is this the athlete of this turn?', ['yes', 'no'], data, (answer, by) => {
    machine.mark('identity', machine.now, { turn: turn.number, person: person.ref, answer, by });
    if (answer === 'yes') accept();
    else endTurn(machine, 'wrong-person');
  });
}
