import type {
  AlertView,
  Confirmed,
  Controls,
  Cue,
  Day,
  LiveVerdict,
  QuestionView,
  RigFloor,
  RigView,
  Snapshot,
  ToOperator,
} from '@sthene/contract';
import { appended, type Trace } from './trace.ts';

/**
 * How the connection stands. `opening`: nothing has arrived yet. `open`: state and messages are complete. `lost`: the station does
 * not answer; it is tried again. `other-version`: the station speaks another version; it is not tried again.
 */
export type Link = 'opening' | 'open' | 'lost' | 'other-version';

export type Sound = Cue['sound'];

/** Values of one rig now, N. */
export interface Now {
  readonly sample: number;
  readonly total: number;
  readonly left?: number | undefined;
  readonly right?: number | undefined;
  /** Each channel in its own unit, its zero taken off. */
  readonly channels: readonly { readonly name: string; readonly value: number }[];
  /** Right foot, % of left and right. */
  readonly shareRight?: number | undefined;
}

/** A countdown as it was last said. */
export interface Countdown {
  readonly of: 'zero' | 'stand-still' | 'count' | 'rest' | 'away';
  readonly left: number;
  readonly restarted: boolean;
  /** Device clock at receipt, ms. */
  readonly at: number;
}

/** Everything the Floor shows of one rig. */
export interface RigLive {
  readonly view?: RigView;
  readonly floor?: RigFloor;
  readonly now?: Now;
  readonly trace?: Trace;
  /** How the forces of the trace are told; another way begins another trace. */
  readonly told?: RigFloor['forces'];
  readonly countdown?: Countdown;
  readonly verdict?: LiveVerdict;
  readonly confirmed?: Confirmed & { readonly at: number };
  /** The newest cue with the device clock at receipt, ms. */
  readonly cue?: Cue & { readonly received: number };
  /** Device clock when the present phase arrived, ms. */
  readonly phaseAt: number;
}

export interface Refused {
  readonly id: string | undefined;
  readonly code: string;
  readonly words: string;
  readonly next: string;
}

/** The live day as one device knows it. */
export interface LiveState {
  readonly link: Link;
  /** Device clock when the link was lost, ms. */
  readonly lostAt?: number | undefined;
  readonly sequence: number;
  readonly you?: Snapshot['you'] | undefined;
  readonly controls: Controls;
  readonly wallBlank: boolean;
  /** Messages this device was too slow for, and when it was told of them last (device clock, ms). */
  readonly behind?: { readonly skipped: number; readonly at: number } | undefined;
  readonly day?: Day | undefined;
  /** Device clock when the day was told last, ms: what is left of a rest counts from there. */
  readonly dayAt: number;
  readonly rigs: Readonly<Record<string, RigLive>>;
  readonly alerts: readonly AlertView[];
  readonly questions: readonly QuestionView[];
  readonly refused?: Refused | undefined;
}

export const nothingYet: LiveState = {
  link: 'opening',
  sequence: 0,
  controls: {},
  wallBlank: false,
  dayAt: 0,
  rigs: {},
  alerts: [],
  questions: [],
};

/**
 * The state after a message. Pure: the same messages at the same times give the same state.
 *
 * @param at device clock at receipt, ms
 */
export function received(state: LiveState, message: ToOperator, at: number): LiveState {
  const next = { ...state, sequence: message.sequence };
  switch (message.type) {
    case 'snapshot':
      return fromSnapshot(state, message, at);
    case 'rig':
      return withRig(next, message.rig.id, { view: message.rig }, at);
    case 'day':
      return { ...next, day: message.day, dayAt: at };
    case 'phase':
      return withFloor(next, message.floor, at);
    case 'live': {
      const { sample, total, left, right, shareRight, channels } = message;
      return withRig(next, message.rig, { now: { sample, total, left, right, shareRight, channels } }, at);
    }
    case 'envelope': {
      const { first, bucket, rate, total, forces: told } = message;
      const before = state.rigs[message.rig];
      const trace = appended(before?.told === told ? before.trace : undefined, { first, bucket, rate, values: total });
      return withRig(next, message.rig, { trace, told }, at);
    }
    case 'countdown': {
      const { of, left, restarted } = message;
      return withRig(next, message.rig, { countdown: { of, left, restarted, at } }, at);
    }
    case 'cue':
      return withRig(next, message.rig, { cue: { ...message, received: at } }, at);
    case 'verdict':
      return withRig(next, message.verdict.rig, { verdict: message.verdict }, at);
    case 'confirmed':
      return withRig(next, message.rig, { confirmed: { ...message, at } }, at);
    case 'alert':
      return { ...next, alerts: replaced(state.alerts, message.alert) };
    case 'alert-over':
      return { ...next, alerts: state.alerts.filter(({ id }) => id !== message.id) };
    case 'question':
      return { ...next, questions: replaced(state.questions, message.question) };
    case 'question-over':
      return { ...next, questions: state.questions.filter(({ id }) => id !== message.id) };
    case 'controls':
      return { ...next, controls: message.controls };
    case 'refused': {
      const { id, code, words, next: advice } = message;
      return { ...next, refused: { id, code, words, next: advice } };
    }
    case 'wall-blank':
      return { ...next, wallBlank: message.blank };
    case 'behind':
      return { ...next, behind: { skipped: (state.behind?.skipped ?? 0) + message.skipped, at } };
    case 'accepted':
    case 'probe':
      return next;
  }
}

/** The state when the connection broke: what was seen last stays on the screen, marked as old. */
export function linkLost(state: LiveState, at: number): LiveState {
  if (state.link === 'lost' || state.link === 'other-version') return state;
  return { ...state, link: 'lost', lostAt: at };
}

function fromSnapshot(state: LiveState, snapshot: Snapshot, at: number): LiveState {
  const rigs: Record<string, RigLive> = {};
  for (const view of snapshot.rigs) {
    const before = state.rigs[view.id];
    rigs[view.id] = {
      // The curve goes on where it was; a hole shows as a hole.
      ...(before?.trace === undefined ? {} : { trace: before.trace }),
      ...(before?.told === undefined ? {} : { told: before.told }),
      ...(before?.confirmed === undefined ? {} : { confirmed: before.confirmed }),
      phaseAt: at,
      view,
    };
  }
  for (const floor of snapshot.floors) {
    const before = state.rigs[floor.rig];
    const phaseAt = before?.floor?.phase === floor.phase ? before.phaseAt : at;
    rigs[floor.rig] = { ...rigs[floor.rig], floor, phaseAt };
  }
  for (const verdict of snapshot.verdicts) rigs[verdict.rig] = { ...(rigs[verdict.rig] ?? { phaseAt: at }), verdict };
  const { sequence, you, controls, wallBlank, day, alerts, questions } = snapshot;
  const { behind } = state;
  return { link: 'open', sequence, you, controls, wallBlank, behind, day, dayAt: at, rigs, alerts, questions };
}

function withFloor(state: LiveState, floor: RigFloor, at: number): LiveState {
  const before = state.rigs[floor.rig] ?? { phaseAt: at };
  const moved = before.floor?.phase !== floor.phase || before.floor?.trial !== floor.trial;
  const { countdown, verdict, ...rest } = before;
  const sameTurn = verdict !== undefined && verdict.turn === floor.turn?.id;
  const judged = floor.phase === 'verdict' || floor.phase === 'rest';
  const next: RigLive = {
    ...rest,
    ...(moved || countdown === undefined ? {} : { countdown }),
    ...(verdict !== undefined && sameTurn && judged ? { verdict } : {}),
    floor,
    phaseAt: moved ? at : before.phaseAt,
  };
  return { ...state, rigs: { ...state.rigs, [floor.rig]: next } };
}

function withRig(state: LiveState, rig: string, change: Partial<RigLive>, at: number): LiveState {
  const before = state.rigs[rig] ?? { phaseAt: at };
  return { ...state, rigs: { ...state.rigs, [rig]: { ...before, ...change } } };
}

function replaced<T extends { readonly id: string }>(all: readonly T[], one: T): readonly T[] {
  return all.some(({ id }) => id === one.id) ? all.map((old) => (old.id === one.id ? one : old)) : [...all, one];
}
