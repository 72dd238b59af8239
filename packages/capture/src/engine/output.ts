import type { JumpKind, SampleIndex, SampleSpan, SetState, Verdict } from '@sthene/core';
import type { JumpStage, Phase } from './phase.ts';
import type { RefusalCode } from './refusal.ts';
import type { ClosedTrial, Correction, EffortKind, KnownWeight, Target, Weighing } from './trial.ts';

/** What the engine says. Every output carries the sample up to which the stream had been read. */
export type EngineOutput = { readonly sample: SampleIndex } & EngineEvent;

export type EngineEvent =
  | {
      readonly kind: 'phase';
      readonly phase: Phase;
      readonly turn: number;
      readonly trial: number;
      readonly person?: string;
      readonly effort?: { readonly kind: EffortKind; readonly target?: Target };
      /** Another test of this person follows on these plates. */
      readonly goesOn?: true;
      /** Set in a jump test. */
      readonly jump?: JumpKind;
      /** Why the phase began, in a permanent code. */
      readonly because: string;
    }
  /** In the phase `jump`: where the jump stands. `at`: the first block of it; `flights`: so many so far. */
  | { readonly kind: 'stage'; readonly stage: JumpStage; readonly at: SampleIndex; readonly flights: number }
  | {
      readonly kind: 'guidance';
      readonly to: 'operator' | 'athlete';
      readonly code: string;
      readonly words: string;
      readonly data?: Readonly<Record<string, number | string>>;
    }
  /** Whole seconds left; said when the number changes. `restarted` when it went up. */
  | {
      readonly kind: 'countdown';
      readonly of: 'zero' | 'stand-still' | 'rest' | 'away';
      readonly seconds: number;
      readonly restarted: boolean;
    }
  | { readonly kind: 'count'; readonly number: number }
  | { readonly kind: 'count-void'; readonly because: string }
  | { readonly kind: 'cue-request'; readonly cue: string; readonly words: string }
  | { readonly kind: 'mark'; readonly at: SampleIndex; readonly label: string; readonly data?: unknown }
  | { readonly kind: 'zero'; readonly window: SampleSpan; readonly zeros: Readonly<Record<string, number>> }
  | { readonly kind: 'weighing'; readonly weighing: Weighing }
  /** Whether the weighing of an earlier test stands for this turn, and why not. */
  | ({ readonly kind: 'earlier-weight' } & EarlierWeight)
  | { readonly kind: 'effort-dismissed'; readonly span: SampleSpan; readonly because: string }
  | { readonly kind: 'trial-closed'; readonly trial: ClosedTrial }
  /** The trial again with the unloaded mean after step-off. */
  | { readonly kind: 'trial-reviewed'; readonly trial: ClosedTrial }
  | {
      readonly kind: 'verdict';
      readonly trial: number;
      readonly verdict: Verdict;
      /** A person's decision, where there is one. */
      readonly decided?: {
        readonly decision: 'counts' | 'does-not-count';
        readonly by: string;
        readonly reason: string;
      };
      readonly correction?: Correction;
    }
  | { readonly kind: 'set'; readonly person: string; readonly set: SetState; readonly another: boolean }
  | {
      readonly kind: 'rest';
      readonly person: string;
      readonly state: 'began' | 'over' | 'too-long' | 'skipped';
      readonly since: SampleIndex;
      readonly minimum: number;
      readonly maximum: number;
    }
  | { readonly kind: 'alert'; readonly code: string; readonly words: string }
  | {
      readonly kind: 'question';
      readonly id: string;
      readonly code: string;
      readonly words: string;
      readonly answers: readonly string[];
      readonly data?: Readonly<Record<string, number | string>>;
    }
  | { readonly kind: 'question-closed'; readonly id: string; readonly answer: string }
  | { readonly kind: 'state'; readonly armed: boolean; readonly held: boolean }
  | { readonly kind: 'done'; readonly order: string }
  | { readonly kind: 'refused'; readonly order: string; readonly code: RefusalCode; readonly words: string }
  | { readonly kind: 'turn-ended'; readonly turn: number; readonly person: string; readonly because: string }
  | LiveValues;

/** What became of the weighing of an earlier test. */
export type EarlierWeight =
  | { readonly stands: true; readonly weight: KnownWeight }
  | {
      readonly stands: false;
      /** `zero-moved`: by more than is held; `weight-differs`: whoever stepped on does not weigh that. */
      readonly because: 'zero-moved' | 'weight-differs';
    };

/** Forces of the last 20 ms, N. */
export interface LiveValues {
  readonly kind: 'live';
  readonly total: number;
  readonly left?: number;
  readonly right?: number;
  /** Right foot, % of left and right; absent with under 20 N on them. */
  readonly shareRight?: number;
  /** Total minus body weight, once it is known. */
  readonly tension?: number;
  readonly steady: boolean;
  /** Rate of the stream, Hz. */
  readonly rate: number;
}
