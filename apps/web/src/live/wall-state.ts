import type { ToWall, WallState } from '@sthene/contract';
import type { Countdown, Link } from './state.ts';
import { appended, type Trace } from './trace.ts';

/** A cue as the wall got it. */
export interface WallCue {
  readonly id: string;
  readonly sound: Extract<ToWall, { type: 'cue' }>['sound'];
  readonly words: string;
  readonly at: number;
  /** Device clock at receipt, ms. */
  readonly received: number;
}

/** What a wall knows: forces above standing and names as the day allows, nothing else. */
export interface WallLive {
  readonly link: Link;
  readonly sequence: number;
  readonly wall?: WallState | undefined;
  /** Device clock when `wall` arrived, ms; the rest counts down from it. */
  readonly wallAt: number;
  readonly traces: Readonly<Record<string, Trace>>;
  readonly cues: Readonly<Record<string, WallCue>>;
  readonly countdowns: Readonly<Record<string, Countdown>>;
}

export const darkWall: WallLive = { link: 'opening', sequence: 0, wallAt: 0, traces: {}, cues: {}, countdowns: {} };

/** The wall after a message; pure. A blanked wall forgets curve, cue and count. */
export function wallReceived(state: WallLive, message: ToWall, at: number): WallLive {
  const next = { ...state, sequence: message.sequence };
  switch (message.type) {
    case 'wall':
      if (message.blank) return { ...darkWall, link: 'open', sequence: message.sequence, wall: message, wallAt: at };
      return { ...next, link: 'open', wall: message, wallAt: at, ...forgotten(state, message) };
    case 'wall-envelope': {
      const { rig, first, bucket, rate, above } = message;
      const trace = appended(state.traces[rig], { first, bucket, rate, values: above });
      return { ...next, traces: { ...state.traces, [rig]: trace } };
    }
    case 'cue': {
      const { id, sound, words, at: given, rig } = message;
      return { ...next, cues: { ...state.cues, [rig]: { id, sound, words, at: given, received: at } } };
    }
    case 'countdown': {
      const { of, left, restarted, rig } = message;
      return { ...next, countdowns: { ...state.countdowns, [rig]: { of, left, restarted, at } } };
    }
    case 'behind':
    case 'probe':
    case 'refused':
      return next;
  }
}

/** The wall when the connection broke: old forces and counts go, so that nobody takes them for now. */
export function wallLost(state: WallLive): WallLive {
  if (state.link === 'lost' || state.link === 'other-version') return state;
  return { ...state, link: 'lost', traces: {}, cues: {}, countdowns: {} };
}

/** What a new state makes stale: the count of another phase, and everything of another person's turn. */
function forgotten(state: WallLive, message: WallState): Partial<WallLive> {
  const countdowns = { ...state.countdowns };
  const traces = { ...state.traces };
  const cues = { ...state.cues };
  for (const rig of message.rigs) {
    const before = state.wall?.rigs.find((one) => one.rig === rig.rig);
    if (before?.phase !== rig.phase) delete countdowns[rig.rig];
    // The number of a pull is its own highest force, not that of the one before.
    const anew = before?.phase !== rig.phase && ['set-up', 'ready', 'cue'].includes(rig.phase);
    if (anew) delete traces[rig.rig];
    if (before?.who !== rig.who) {
      delete traces[rig.rig];
      delete cues[rig.rig];
    }
  }
  return { countdowns, traces, cues };
}
