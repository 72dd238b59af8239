import type { JumpMethod, Method, Protocol, RunningRules } from '@sthene/core';
import type { JumpSetup } from './trial.ts';

/** Guided: the operator advances and cues. Hands-free: the phases advance by what the plates say. */
export type Mode = 'guided' | 'hands-free';

/** What an athlete may do in a test on a limb; the strictest entry that fits holds. Absent: everything. */
export interface Clearance {
  /** Protocol id; absent: every test. */
  readonly test?: string;
  /** Absent: every limb. */
  readonly limb?: 'left' | 'right';
  readonly level: 'cleared' | 'submaximal-only' | 'not-cleared';
}

/**
 * A weighing of an earlier test of the same person, on these plates, on this day. It stands for the turn where the zero held; else the
 * person is weighed again.
 */
export interface EarlierWeighing {
  /** N. */
  readonly bodyWeight: number;
  /** Means of the successive whole seconds of that stand-still, N. */
  readonly seconds: readonly number[];
  /** Zero of each force channel by which it was weighed, in the unit of the test. */
  readonly zeros: Readonly<Record<string, number>>;
  /** Where it comes from; kept with every effort that uses it. */
  readonly from: WeighedBefore;
  /** The person has not left the plates since, or came back to plates whose zero had held. */
  readonly here: boolean;
}

/** Test, and effort by its id, with which a weighing was kept first. */
export interface WeighedBefore {
  readonly test: string;
  readonly trial: string;
}

/** Who is on the rig and what is planned for them. Ids only; names stay outside the engine. */
export interface TurnPlan {
  /** Reference to the person; the same in every turn of theirs. */
  readonly person: string;
  /** Last known body weight, N. */
  readonly lastBodyWeight?: number;
  /** Own best gross peak force of this test, N (unit of the test). */
  readonly ownBest?: number;
  /** Usual share of the right foot when standing still, %. */
  readonly usualShareRight?: number;
  readonly clearances: readonly Clearance[];
  readonly minor: boolean;
  /** Usual tension on the bar just before the cue, N above body weight; absent until it was seen a few times. */
  readonly usualTension?: number;
  /** The bar stands elsewhere than the athlete had it last: asked about before the cue. */
  readonly barMoved?: { readonly last: string | number; readonly now: string | number };
  /** What the setup of a jump says; only the numbers of the analysis. */
  readonly jumpSetup?: JumpSetup;
  /** Nobody knows yet who it is; no effort begins before `identify`. */
  readonly unknown?: boolean;
  /** Set when a pain stop of the day is known from before (a restart). */
  readonly painStopped?: boolean;
  /** Maximal efforts planned; the protocol's number when absent. */
  readonly maximalTrials?: number;
  /** Submaximal efforts already done on this day (a restart). */
  readonly warmUpDone?: number;
  /** A rest from another test of the day that is not over as the turn begins, s. */
  readonly rest?: { readonly elapsed: number; readonly minimum: number; readonly maximum: number };
  /** The weighing of an earlier test of the day that may stand for this turn. */
  readonly weighed?: EarlierWeighing;
  /** Zero of each force channel as another test of the day took it last on these plates, in the unit of the test. */
  readonly zeros?: Readonly<Record<string, number>>;
  /** Another test of this person follows: `here`, on these plates and at once, so that nobody is sent off them; or `later`. */
  readonly goesOn?: 'here' | 'later';
}

/** Everything the engine is told at its start. */
export interface EngineConfig {
  readonly protocol: Protocol;
  readonly method: Method;
  /** The recipe of a jump test; the built-in one when absent. */
  readonly jumpMethod?: JumpMethod;
  /** Absent: the defaults of the protocol. */
  readonly running?: RunningRules;
  /** m/s^2. */
  readonly gravity: number;
  readonly mode: Mode;
  /** Last known zero of each force channel by name, in the unit of the test; a first zero is compared with it. */
  readonly zeros?: Readonly<Record<string, number>>;
  /** Live values per second of samples; 25 when absent. */
  readonly liveRate?: number;
}
