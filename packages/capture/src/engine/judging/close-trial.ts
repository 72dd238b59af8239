import { type Forces, inShort, type SampleSpan, stopReason, type TrialResult } from '@sthene/core';
import type { Machine } from '../machine.ts';
import { bestOf, type Person, setOf, setTrials } from '../person.ts';
import { correctionFor } from '../sayings/corrections.ts';
import type { Turn } from '../state.ts';
import type { ClosedTrial, TrialEnd } from '../trial.ts';
import { analyseClosed } from './analyse-closed.ts';
import { cellsAtLimit, forcesOfSpan, type RecordedSpan } from './live-recording.ts';
import { closenessOf, reasonsOf, worstVerdict } from './verdict.ts';

/** Closes a trial: recording of its span, analysis, verdict, what is said, what comes next. */
export function closeTrial(machine: Machine, turn: Turn, span: SampleSpan, ended: TrialEnd): void {
  const { config, method, rig, attempt, effort, target } = machine;
  const { person } = turn;
  if (rig === undefined) throw new Error('A trial cannot close without a stream.');
  const recorded = machine.recorded(span);
  const zeros = rig.zerosByName();
  const forces = spanForces(recorded, zeros, machine.unit);
  const { cue, request } = attempt;
  const facts = {
    span,
    ...(cue === undefined ? {} : { cue }),
    ...(turn.weighing === undefined ? {} : { bodyWeight: turn.weighing.bodyWeight, weighing: turn.weighing.seconds }),
    ...(turn.weighing?.from === undefined ? {} : { weighedBefore: turn.weighing.from }),
    ...(person.plan.jumpSetup === undefined ? {} : { jumpSetup: person.plan.jumpSetup }),
  };
  const result = analyseClosed(forces, facts, config.protocol, method, config.gravity, config.jumpMethod);
  const kind = effort.kind === 'submaximal' ? 'submaximal' : 'maximal';
  const reasons = reasonsOf(
    { ended, effort: kind, ...facts },
    request !== undefined,
    cellsAtLimit(recorded),
    turn.unsure,
  );
  const closeness = target === undefined ? undefined : closenessOf(result, target, machine.base);
  const trial: ClosedTrial = {
    turn: turn.number,
    person: person.ref,
    trial: machine.trial,
    effort: kind,
    ...facts,
    sampleRate: forces.sampleRate,
    zeros,
    ended,
    result,
    reasons,
    verdict: worstVerdict(result.verdict, reasons),
    ...(target === undefined ? {} : { target }),
    ...(closeness === undefined ? {} : { closeness }),
  };
  person.trials.push({ trial: { ...trial, result: inShort(result) } });
  machine.unreviewed.push({ person, at: person.trials.length - 1, forces });
  if (kind === 'submaximal' && (ended === 'released' || ended === 'not-still')) {
    // One that was planned is done; warming up again after a long rest needs one more only where none is left.
    if (machine.rules.warmUp[person.warmUpDone] !== undefined) person.warmUpDone++;
    person.warmUpAgain = false;
  }
  beginRest(machine, person, trial, effortEnd(result));
  machine.attempt = {};
  machine.emit({ kind: 'trial-closed', trial });
  machine.mark('trial closed', span.end, { trial: trial.trial, effort: kind, span, ended, verdict: trial.verdict });
  machine.enter('verdict', ended);
  announce(machine, person, trial);
  if (!machine.handsFree && kind === 'maximal' && trial.verdict === 'look-again') {
    askAbout(machine, person, trial);
  }
}

/** Where the effort ended, in samples of its span: a pull as its force fell, a jump as it landed. */
const effortEnd = ({ events, jump }: TrialResult): number | undefined => events?.end ?? jump?.touchdown;

function spanForces(recorded: RecordedSpan, zeros: Readonly<Record<string, number>>, unit: string): Forces {
  const forces = forcesOfSpan(recorded, zeros, unit);
  // Channels and units were judged when the stream opened.
  if (!forces.ok) throw new Error(`No forces: ${forces.reason}.`);
  return forces.value;
}

function beginRest(machine: Machine, person: Person, trial: ClosedTrial, end: number | undefined): void {
  const { rest } = machine.rules;
  person.rest = {
    since: trial.span.start + (end ?? trial.span.end - trial.span.start),
    minimum: trial.effort === 'maximal' ? rest.minimum : rest.afterSubmaximal,
    maximum: rest.maximum,
    over: false,
    tooLong: false,
  };
}

/** Says the verdict, the one correction, and where the set stands. */
function announce(machine: Machine, person: Person, trial: ClosedTrial): void {
  const { result, verdict, reasons, closeness } = trial;
  machine.emit({
    kind: 'verdict',
    trial: trial.trial,
    verdict,
    correction: correctionFor(verdict, result.checks, result.reason, reasons, closeness, trial.effort),
  });
  if (trial.effort === 'maximal') tellSet(machine, person, true);
}

/** Best, set and what they ask for, after a trial or a decision. */
export function tellSet(machine: Machine, person: Person, fresh: boolean): void {
  const { config, rules, setRule } = machine;
  person.best = bestOf(person);
  const stopping = fresh ? stopReason(setTrials(person), rules.stop) : undefined;
  const ends = stopping !== undefined && rules.stop.closes === true && !person.finished;
  if (ends) person.finished = true;
  const set = setOf(person, config.protocol, rules, setRule);
  machine.emit({ kind: 'set', person: person.ref, set, another: set.another && !person.finished });
  if (set.closed || ends) {
    machine.say(set.closed ? 'set-closed' : 'efforts-ended');
    const { minimum } = config.protocol.maximalTrials;
    if (set.counting.length < minimum) machine.say('too-few-count', { counting: set.counting.length, minimum });
  } else if (set.another && set.agreement.ok && !set.agreement.value.agree) {
    const { difference, limit } = set.agreement.value;
    machine.say('another-trial', { difference, limit });
  } else if (fresh && set.another && person.trials.at(-1)?.trial.verdict !== 'counts') machine.say('another-pull');
  if (stopping !== undefined && rules.stop.closes !== true)
    machine.say(stopping === 'rejected-in-a-row' ? 'consider-stopping' : 'peak-has-fallen');
}

function askAbout(machine: Machine, person: Person, trial: ClosedTrial): void {
  const words = 'The trial needs a second look. Does it count?';
  machine.ask('look-again', words, ['counts', 'does-not-count'], { trial: trial.trial }, (answer, by) => {
    decide(machine, person, trial.trial, answer as 'counts' | 'does-not-count', by, 'second look');
  });
}

/** A person's decision on a closed trial; it wins over the verdict. */
export function decide(
  machine: Machine,
  person: Person,
  number: number,
  decision: 'counts' | 'does-not-count',
  by: string,
  reason: string,
): void {
  const entry = person.trials[number - 1];
  if (entry === undefined) return;
  entry.decided = decision;
  machine.emit({ kind: 'verdict', trial: number, verdict: entry.trial.verdict, decided: { decision, by, reason } });
  machine.mark('decision', machine.now, { person: person.ref, trial: number, decision, by, reason });
  tellSet(machine, person, false);
}
