import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import { momentsOver, totalOf } from '../stream/window.ts';
import type { KnownWeight } from '../trial.ts';
import { endTurn } from '../turn.ts';

/**
 * Asks whether this is the athlete when the weight, the share of the feet or the bar is not as it was last time. `not-sure` goes on,
 * and every effort of the turn is looked at again.
 */
export function askIdentity(machine: Machine, turn: Turn, weighing: KnownWeight): void {
  const { identity } = machine.rules;
  const { person } = turn;
  const last = person.lastBodyWeight;
  const usual = person.plan.usualShareRight;
  const moved = person.plan.barMoved;
  const weight = last === undefined ? 0 : Math.abs(weighing.bodyWeight - last) / last;
  const share = usual === undefined || weighing.shareRight === undefined ? 0 : Math.abs(weighing.shareRight - usual);
  const accept = () => {
    turn.identified = true;
    person.lastBodyWeight = weighing.bodyWeight;
  };
  const because =
    weight > identity.weightShare
      ? 'body-weight'
      : share > identity.sharePoints
        ? 'standing-share'
        : moved !== undefined
          ? 'bar-moved'
          : undefined;
  // Of somebody unknown nothing can be unusual.
  if (because === undefined || turn.unknown) {
    accept();
    return;
  }
  const data = {
    because,
    weighed: weighing.bodyWeight,
    ...(last === undefined ? {} : { last }),
    ...(weighing.shareRight === undefined ? {} : { shareRight: weighing.shareRight }),
    ...(usual === undefined ? {} : { usualShareRight: usual }),
    ...(moved === undefined ? {} : { barLast: moved.last, barNow: moved.now }),
  };
  ask(machine, turn, data, accept);
}

/** Before a cue: a tension on the bar that is not this athlete's habit asks once a turn. @returns true when it asks */
export function askTension(machine: Machine, turn: Turn): boolean {
  const { rules, recent, weighted } = machine;
  const usual = turn.person.plan.usualTension;
  if (!weighted || usual === undefined || turn.tensionAsked || recent.length === 0) return false;
  const tension = momentsOver(recent, totalOf).mean - machine.base;
  if (Math.abs(tension - usual) <= rules.identity.tension) return false;
  turn.tensionAsked = true;
  ask(machine, turn, { because: 'tension', tension, usualTension: usual }, () => {});
  return true;
}

function ask(machine: Machine, turn: Turn, data: Readonly<Record<string, number | string>>, accept: () => void): void {
  const { person } = turn;
  const about = { person: person.ref, ...data };
  const answers = ['yes', 'no', 'not-sure'];
  machine.ask('is-this-the-athlete', 'Is this the athlete of this turn?', answers, about, (answer, by) => {
    machine.mark('identity', machine.now, { turn: turn.number, person: person.ref, answer, by });
    if (answer === 'no') endTurn(machine, 'wrong-person');
    else if (answer === 'yes') accept();
    else {
      turn.identified = true;
      turn.unsure = true;
    }
  });
}
