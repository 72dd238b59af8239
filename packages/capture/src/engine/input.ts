import type { MonotonicNanoseconds, SampleIndex } from '@sthene/core';
import type { Packet } from '../packets/packet.ts';
import type { TurnPlan } from './config.ts';
import type { Phase } from './phase.ts';

/** All that ever enters the engine. */
export type EngineInput =
  | { readonly kind: 'packet'; readonly packet: Packet }
  | { readonly kind: 'command'; readonly command: Command }
  /** The device that sounded a cue says when it really sounded, in samples of this stream. */
  | { readonly kind: 'cue-sounded'; readonly cue: string; readonly sample: SampleIndex };

/** What the sender believed, and until when it is worth anything. */
export interface CommandAddress {
  readonly turn: number;
  /** Number of the trial under way or next, as in the last phase output. */
  readonly trial: number;
  readonly phase: Phase;
  /** When the station received it. */
  readonly at: MonotonicNanoseconds;
  /** Monotonic time or sample of this stream after which it is void. */
  readonly expires: MonotonicNanoseconds | SampleIndex;
}

export type Command = CommandAddress & Order;

/** What is asked for. */
export type Order =
  | { readonly order: 'arm' }
  | { readonly order: 'disarm' }
  | { readonly order: 'advance' }
  | { readonly order: 'cue-now' }
  | { readonly order: 'abort' }
  | { readonly order: 'hold' }
  | { readonly order: 'resume' }
  | { readonly order: 'redo-zero' }
  /** The machine was asleep or stood still: zero and rate are checked before the next cue. */
  | { readonly order: 'woke-up'; readonly seconds: number }
  /** After waking up: whether the plates run at the rate they ran at before. */
  | { readonly order: 'rate-checked'; readonly same: boolean }
  /** In rest: the rest; before a pull: the planned submaximal effort, or what is left of the maximal ones. */
  | { readonly order: 'skip' }
  | { readonly order: 'end-turn' }
  /** Of the athlete on the rig, or of the one named. */
  | { readonly order: 'pain-stop'; readonly by: string; readonly person?: string }
  | { readonly order: 'release-pain'; readonly person: string; readonly by: string; readonly reason: string }
  | { readonly order: 'answer'; readonly question: string; readonly answer: string; readonly by: string }
  | {
      readonly order: 'judge';
      /** Absent: the athlete on the rig. */
      readonly person?: string;
      /** Number of a closed trial of theirs. */
      readonly of: number;
      readonly decision: 'counts' | 'does-not-count';
      readonly by: string;
      readonly reason: string;
    }
  | { readonly order: 'next-athlete'; readonly next: TurnPlan }
  /** After the weighing: it is this athlete's turn; the weighing stands. */
  | { readonly order: 'identify'; readonly as: TurnPlan };

export type OrderName = Order['order'];
