import type { Order } from '@sthene/capture';
import type { Command, CommandKind, ToStation } from '@sthene/contract';
import type { MonotonicNanoseconds } from '@sthene/core';
import { millisecondsOf } from './clock.ts';
import { cueSounded } from './cue-heard.ts';
import type { Client, Message } from './hub/client.ts';
import type { LiveLab } from './live-lab.ts';
import { type Refusal, refusalIn, refusals } from './refusals.ts';
import { trialId } from './rig/floor-view.ts';

/** A command whose time lies further ahead than this was not stamped with our clock, ms. */
const ahead = 250;
/** Stopping is the safe side: any operator may, whatever the phase, however slow the link. */
const stops: ReadonlySet<CommandKind> = new Set(['abort', 'pain', 'hold', 'disarm']);

/** Does what a client asks, or says why not. */
export async function receive(live: LiveLab, client: Client, message: ToStation): Promise<void> {
  switch (message.type) {
    case 'hello':
      return;
    case 'probe':
      return probe(live, client, message);
    case 'cue-sounded':
      return cueSounded(live, client, message);
    case 'take-controls':
      if (client.device.role !== 'operator') return refuse(live, client, undefined, notAnOperator);
      live.controls.take(client.device, live.ports.clock.wall());
      live.tell({ type: 'controls', controls: live.controls.view } as Message, 'kept');
      return;
    case 'release-controls':
      if (live.controls.release(client.device))
        live.tell({ type: 'controls', controls: live.controls.view } as Message, 'kept');
      return;
    case 'answer':
      return finish(live, client, message.id, answer(live, client, message.question, message.choice));
    case 'command':
      return finish(live, client, message.id, await command(live, client, message));
  }
}

function probe(live: LiveLab, client: Client, message: Extract<ToStation, { type: 'probe' }>): void {
  const t1 = millisecondsOf(live.ports.clock.monotonic());
  if (message.last !== undefined) {
    client.offset = message.last.offset;
    client.roundTrip = message.last.roundTrip;
  }
  const t2 = millisecondsOf(live.ports.clock.monotonic());
  client.offer(JSON.stringify({ type: 'probe', id: message.id, t0: message.t0, t1, t2 }), 'moment');
}

export const notAnOperator: Refusal = {
  code: 'not-an-operator',
  words: 'This device is connected to look on.',
  next: 'Connect it as an operator to do this.',
};

function answer(live: LiveLab, client: Client, question: string, choice: string): Refusal | undefined {
  const open = live.questions.get(question);
  const rig = open && live.rigs.get(open.view.rig);
  if (open === undefined || rig === undefined)
    return { code: 'unknown-question', words: 'This question is not open any more.', next: 'Nothing is to be done.' };
  const refused = mayCommand(live, client);
  if (refused !== undefined) return refused;
  return live.order(rig.runtime, { order: 'answer', question: open.engine, answer: choice, by: client.account });
}

function mayCommand(live: LiveLab, client: Client): Refusal | undefined {
  if (client.device.role !== 'operator') return notAnOperator;
  if (live.controls.isHeldBy(client.device)) return undefined;
  return {
    code: 'no-controls',
    words: 'Another device holds the controls, or nobody does.',
    next: 'Take the controls, then try again.',
  };
}

async function command(live: LiveLab, client: Client, given: Command): Promise<Refusal | undefined> {
  const stopping = stops.has(given.kind);
  if (stopping && client.device.role !== 'operator') return notAnOperator;
  if (!stopping) {
    const refused = mayCommand(live, client) ?? tooOld(live, given);
    if (refused !== undefined) return refused;
  }
  if (given.kind === 'blank-wall' || given.kind === 'show-wall') {
    live.blankWall(given.kind === 'blank-wall');
    return undefined;
  }
  const rig = live.rigs.get(given.rig)?.runtime;
  if (rig === undefined) return refusals.unknown;
  if (given.kind === 'begin') {
    const entry = given.entry ?? live.views.day()?.next.find((one) => one.rig === given.rig)?.entry;
    if (entry === undefined) return refusals.done;
    return live.nextUp.begin(given.rig, entry);
  }
  const turn = live.turns.get(given.rig);
  if (turn === undefined || given.turn !== turn.view.id)
    return { code: 'wrong-turn', words: 'The command was meant for another turn.', next: lookAgain };
  if (!stopping && given.trial !== undefined && given.trial !== trialId(rig, turn) && given.kind !== 'judge')
    return { code: 'wrong-trial', words: 'The command was meant for another effort.', next: lookAgain };
  const starts = given.kind === 'cue' || (given.kind === 'advance' && given.phase === 'ready');
  if (starts && live.room.busyFor(given.rig)) return refusals.room;
  if (given.kind === 'pain') live.recordPain(turn, client.device, given.note ?? '');
  if (given.kind === 'disarm' || given.kind === 'abort' || given.kind === 'pain') live.room.waiting.delete(given.rig);
  const order = orderOf(given, client);
  if (order === undefined) return refusals.unknown;
  const at = live.ports.clock.monotonic();
  const expires = BigInt(Math.round((given.at + given.expires) * 1e6)) as MonotonicNanoseconds;
  const valid = stopping ? ((at + 1_000_000_000n) as MonotonicNanoseconds) : expires;
  const refusal = refusalIn(rig.order(order, { at, expires: valid }, undefined, given.phase));
  if (refusal === undefined && given.kind === 'arm' && live.room.busyFor(given.rig)) {
    // Armed, but not before the other rig is through.
    live.room.waiting.add(given.rig);
    live.order(rig, { order: 'disarm' });
  }
  return refusal;
}

const lookAgain = 'Look at the screen and decide again.';

/** A command is never carried out late: the age is by the station's clock, as the device knows it. */
function tooOld(live: LiveLab, { at, expires }: Command): Refusal | undefined {
  const age = millisecondsOf(live.ports.clock.monotonic()) - at;
  if (age > expires)
    return { code: 'expired', words: 'The command came too late and was not carried out.', next: lookAgain };
  if (age < -ahead)
    return {
      code: 'clock-unknown',
      words: 'The time of this command is not by the clock of the station.',
      next: 'Measure the clock with a probe, then send it again.',
    };
  return undefined;
}

function orderOf(given: Command, client: Client): Order | undefined {
  const by = client.account;
  switch (given.kind) {
    case 'advance':
    case 'arm':
    case 'disarm':
    case 'skip':
    case 'hold':
    case 'resume':
    case 'abort':
      return { order: given.kind };
    case 'cue':
      return { order: 'cue-now' };
    case 'zero':
      return { order: 'redo-zero' };
    case 'finish':
      return { order: 'end-turn' };
    case 'pain':
      return { order: 'pain-stop', by };
    case 'judge': {
      const of = Number(given.trial?.split('-').at(-1));
      if (given.decision === undefined || !Number.isInteger(of)) return undefined;
      return { order: 'judge', of, decision: given.decision, by, reason: given.note ?? 'decided on the floor' };
    }
    default:
      return undefined;
  }
}

function finish(live: LiveLab, client: Client, id: string, refusal: Refusal | undefined): void {
  if (refusal !== undefined) refuse(live, client, id, refusal);
  else live.hub.answer(client, { type: 'accepted', id } as Message);
}

function refuse(live: LiveLab, client: Client, id: string | undefined, refusal: Refusal): void {
  live.hub.answer(client, { type: 'refused', ...(id === undefined ? {} : { id }), ...refusal } as Message);
}
