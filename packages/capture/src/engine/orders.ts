import { addressed } from './address.ts';
import { gateOf } from './gates.ts';
import { identifyAs } from './identify-as.ts';
import type { Command, OrderName } from './input.ts';
import { decide } from './judging/close-trial.ts';
import type { Machine } from './machine.ts';
import { clearanceOf } from './person.ts';
import { isEffort } from './phase.ts';
import { startCount } from './phases/cue.ts';
import { askTension } from './phases/identity.ts';
import { enterRest, sayRest, skipRest } from './phases/rest.ts';
import { confirmSetUp, enterSetUp } from './phases/set-up.ts';
import { type RefusalCode, refusals } from './refusal.ts';
import { startTurn } from './start-turn.ts';
import { abort, hold, painStop } from './stopping.ts';
import { endTurn, zeroAgain } from './turn.ts';
import { wokeUp } from './waking.ts';

type Carry<N extends OrderName> = (machine: Machine, order: Extract<Command, { order: N }>) => RefusalCode | undefined;

/** Carries out a command or refuses it with a code; nothing is kept for later. */
export function obey(machine: Machine, command: Command): void {
  const carry = orders[command.order] as Carry<OrderName>;
  const refused = addressed(machine, command) ?? carry(machine, command);
  if (refused !== undefined) refuse(machine, command.order, refused);
  else {
    machine.mark(`order ${command.order}`, machine.now, { turn: command.turn, trial: command.trial });
    machine.emit({ kind: 'done', order: command.order });
  }
}

export function refuse(machine: Machine, order: string, code: RefusalCode): void {
  machine.emit({ kind: 'refused', order, code, words: refusals[code] });
}

const orders: { readonly [N in OrderName]: Carry<N> } = {
  arm(machine) {
    const { turn } = machine;
    if (turn === undefined) return 'no-turn';
    if (!machine.handsFree) return 'not-hands-free';
    if (turn.held) return 'held';
    if (machine.effort.kind === 'none') {
      const { because } = machine.effort;
      return because === 'complete' ? 'nothing-planned' : because === 'pain-stopped' ? because : 'not-cleared';
    }
    turn.armed = true;
    machine.state();
    return undefined;
  },
  disarm(machine) {
    if (machine.turn === undefined) return 'no-turn';
    machine.turn.armed = false;
    if (machine.attempt.count !== undefined) {
      machine.voidCount('disarmed');
      machine.attempt = {};
      machine.enter('ready', 'disarmed');
    }
    machine.state();
    return undefined;
  },
  advance(machine) {
    const { turn, phase } = machine;
    if (turn === undefined) return 'no-turn';
    if (turn.held) return 'held';
    if (phase === 'verdict') {
      enterRest(machine, turn, 'advanced');
      return undefined;
    }
    if (phase !== 'set-up' && phase !== 'ready' && phase !== 'rest') return 'not-now';
    const gate = gateOf(machine);
    if (gate !== undefined) return gate;
    if (phase === 'ready') return cueNow(machine);
    if (phase === 'set-up') confirmSetUp(machine, turn, 'advanced');
    else enterSetUp(machine, turn, 'advanced');
    return undefined;
  },
  'cue-now': cueNow,
  abort,
  hold,
  resume(machine) {
    const { turn, phase } = machine;
    if (turn === undefined) return 'no-turn';
    if (!turn.held) return 'not-held';
    turn.held = false;
    // What was steady before the hold is not steady by that.
    machine.recent = [];
    machine.steadySince = undefined;
    machine.tenseSince = undefined;
    if (turn.away !== undefined) turn.away = { ...turn.away, since: machine.now };
    // What is said is said again: the last word was to wait.
    if (!isEffort(phase) && phase !== 'verdict') machine.enter(phase, 'resumed');
    if (phase === 'rest') sayRest(machine, turn);
    if (turn.away !== undefined) machine.say('step-back-on');
    machine.state();
    return undefined;
  },
  'redo-zero'(machine) {
    const { turn, phase } = machine;
    if (turn === undefined) return 'no-turn';
    if (turn.held) return 'held';
    if (phase === 'cue' || isEffort(phase) || phase === 'verdict') return 'not-now';
    // Under load there is no zero.
    if (machine.weighted && machine.presence.on) return 'on-plates';
    zeroAgain(machine, turn, 'redo-zero');
    return undefined;
  },
  'woke-up': wokeUp,
  'rate-checked'(machine, { same }) {
    if (!machine.rateUnchecked) return 'not-now';
    if (!same) {
      machine.alert('rate-changed', 'After waking up the plates run at another rate. Open the rig again.');
      return undefined;
    }
    machine.rateUnchecked = false;
    machine.mark('rate checked');
    return undefined;
  },
  skip(machine) {
    const { turn, phase, effort } = machine;
    if (turn === undefined) return 'no-turn';
    if (turn.held) return 'held';
    if (phase === 'rest') {
      if (effort.kind === 'none' || turn.person.rest === undefined || turn.person.rest.over) return 'not-now';
      skipRest(machine, turn.person);
      return undefined;
    }
    if (phase !== 'set-up' && phase !== 'ready') return 'not-now';
    if (effort.kind === 'none') return 'nothing-planned';
    machine.mark('effort skipped', machine.now, { person: turn.person.ref, effort: effort.kind });
    if (effort.kind === 'maximal') turn.person.finished = true;
    else if (turn.person.warmUpDone < machine.rules.warmUp.length) turn.person.warmUpDone++;
    else turn.person.warmUpAgain = false;
    if (effort.kind === 'submaximal') {
      machine.alert('warm-up-skipped', 'A submaximal effort was skipped. No maximal effort without a warm-up.');
    }
    if (machine.effort.kind === 'none') enterRest(machine, turn, 'skipped');
    else enterSetUp(machine, turn, 'skipped');
    return undefined;
  },
  'end-turn'(machine) {
    if (machine.turn === undefined) return 'no-turn';
    endTurn(machine, 'ended');
    return undefined;
  },
  'pain-stop': painStop,
  'release-pain'(machine, { person: ref, by, reason }) {
    const person = machine.people.get(ref);
    if (person?.painStopped !== true) return 'no-pain-stop';
    if (by.trim() === '' || reason.trim() === '') return 'name-needed';
    person.painStopped = false;
    machine.mark('pain stop released', machine.now, { person: ref, by, reason });
    return undefined;
  },
  answer(machine, { question: id, answer, by }) {
    const question = machine.questions.get(id);
    if (question === undefined) return 'unknown-question';
    if (!question.answers.includes(answer)) return 'unknown-answer';
    if (by.trim() === '') return 'name-needed';
    machine.closeQuestion(question, answer);
    machine.mark(`answer ${question.code}`, machine.now, { id, answer, by });
    question.act(answer, by);
    return undefined;
  },
  judge(machine, { person: ref, of, decision, by, reason }) {
    const person = ref === undefined ? machine.turn?.person : machine.people.get(ref);
    const entry = person?.trials[of - 1];
    if (person === undefined || entry === undefined) return 'unknown-trial';
    if (entry.trial.effort !== 'maximal') return 'not-maximal';
    if (by.trim() === '' || reason.trim() === '') return 'name-needed';
    decide(machine, person, of, decision, by, reason);
    return undefined;
  },
  'next-athlete'(machine, { next }) {
    if (machine.phase === 'cue' || isEffort(machine.phase)) return 'not-now';
    if (clearanceOf(next.clearances, machine.config.protocol) === 'not-cleared') return 'not-cleared';
    startTurn(machine, next);
    return undefined;
  },
  identify(machine, { as }) {
    const { turn, phase } = machine;
    if (turn === undefined) return 'no-turn';
    if (machine.weighted && turn.weighing === undefined) return 'not-now';
    if (phase !== 'set-up' && phase !== 'ready' && phase !== 'rest') return 'not-now';
    if (clearanceOf(as.clearances, machine.config.protocol) === 'not-cleared') return 'not-cleared';
    identifyAs(machine, turn, as);
    return undefined;
  },
};

/** The count starts now, or a code says why not. */
function cueNow(machine: Machine): RefusalCode | undefined {
  if (machine.turn === undefined) return 'no-turn';
  if (machine.phase !== 'ready') return 'not-now';
  const gate = gateOf(machine);
  if (gate !== undefined) return gate;
  if (machine.handsFree && !machine.turn.armed) return 'not-armed';
  if (machine.steadySince === undefined) return 'not-steady';
  if (askTension(machine, machine.turn)) return 'question-open';
  startCount(machine, 'cue-now');
  return undefined;
}
