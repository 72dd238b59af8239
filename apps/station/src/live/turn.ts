import type { KnownWeight } from '@sthene/capture';
import type { LiveTurn } from '@sthene/contract';
import type { Protocol } from '@sthene/core';
import type { CueHeard } from './cue-heard.ts';
import type { LoadedEntry } from './day/loaded.ts';
import type { History } from './rig/turn-plan.ts';

/** A turn at a rig as the lab knows it; the engine knows only numbers. */
export interface RunningTurn {
  /** Reference by which the engine knows the person. */
  enginePerson: string;
  /** Somebody nobody has announced, before the weighing. */
  unknown: boolean;
  /** Effort and words change when one effort follows another in the same turn. */
  view: LiveTurn;
  entry: LoadedEntry;
  history: History;
  /** What the wall may call the person. */
  wallName: string;
  weighing?: KnownWeight;
  /** In a battery: that the weight of an earlier test stands, or why it does not. */
  weightNote?: string;
  /** Title of the test with which the weight that stands was taken. */
  earlierTest?: string;
  /** Permitted band of the effort that is due, N of total force. */
  target?: { readonly low: number; readonly high: number };
  stillProgress: number;
  /** Whether the body weight may be sent to a Floor; else neither it nor what it could be worked out from is. */
  weightShown: boolean;
  /** How the cue of the present effort was given. */
  cueHeard?: CueHeard;
}

/** The person's best counting value of what the test is about: a peak force, or of a jump its height. */
export function bestOf({ history }: Pick<RunningTurn, 'history'>): number | undefined {
  const best = history.peaks.reduce((most, { value }) => Math.max(most, value), 0);
  return best > 0 ? best : undefined;
}

/** The person's best counting peak, N; undefined in a test that is about something else than force. */
export const bestForce = (turn: RunningTurn): number | undefined =>
  turn.entry.protocol.jump === undefined ? bestOf(turn) : undefined;

/**
 * What an effort may reach as a multiple of body weight, before there is a best. A jump lands with more than it pushes off with: about
 * four times body weight after a countermovement jump, more from a box (common practice); an axis that is too short grows by itself.
 */
const timesWeight = ({ jump }: Protocol): number =>
  jump === undefined ? 3 : jump.kind === 'drop' || jump.kind === 'repeated' ? 6 : 4.5;

/** Steps of the axis, N. */
const step = 500;

/** Upper end of the live axis: room above the best, or above what a first effort may reach. Fixed for the turn. */
export function scaleOf(turn: RunningTurn | undefined): { low: number; high: number } {
  if (turn === undefined) return { low: -100, high: 3000 };
  const weight = turn.weighing?.bodyWeight ?? turn.history.lastBodyWeight ?? 800;
  const reach = Math.max(bestForce(turn) ?? 0, timesWeight(turn.entry.protocol) * weight);
  return { low: -100, high: Math.ceil((1.15 * reach) / step) * step };
}
