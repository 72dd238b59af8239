import type { ProtocolDocument, SetupField } from '@sthene/core';
import type { MethodFacts, PersonFacts, ProtocolFacts, RigCheckFacts } from './common.ts';
import type { UncertaintyFacts } from './uncertainty.ts';

export type TrialStateFacts = 'counts' | 'look-again' | 'repeat' | 'excluded' | 'overruled' | 'not-analysed';

export interface CheckFacts {
  readonly id: string;
  readonly status: 'warn' | 'fail';
  readonly value?: number | undefined;
  readonly limit?: number | undefined;
  readonly unit: string;
}

export interface DecisionFacts {
  readonly kind:
    | 'onset-by-hand'
    | 'onset-automatic'
    | 'exclude'
    | 'restore'
    | 'overrule-counts'
    | 'note'
    | 'undo'
    | 'redo';
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}

export interface HeadlineFacts {
  readonly metric: string;
  readonly value: number;
  readonly unit: string;
}

export interface TrialFacts {
  readonly order: number;
  readonly effort: 'maximal' | 'submaximal' | 'familiarisation';
  readonly state: TrialStateFacts;
  readonly verdict?: 'counts' | 'look-again' | 'repeat' | undefined;
  readonly peakForce?: number | undefined;
  readonly rate200?: number | undefined;
  /** In jump tests, in place of peak force: the metric by which jumps are ranked. */
  readonly headline?: HeadlineFacts | undefined;
  readonly unit: string;
  /** Why nothing could be measured: code of a reason. */
  readonly reason?: string | undefined;
  /** Checks that did not pass, failed ones first. */
  readonly checks: readonly CheckFacts[];
  /** Every decision, taken back ones too, oldest first. */
  readonly decisions: readonly DecisionFacts[];
  /** Name and SHA-256 of the file. */
  readonly recording?: { readonly name: string; readonly sha256: string; readonly sampleRate: number } | undefined;
}

/** One session with everything that happened in it. */
export interface SessionInput {
  readonly person: PersonFacts;
  readonly test: string;
  readonly startedAt: string;
  readonly summary?:
    | { readonly value: number; readonly unit: string; readonly n: number; readonly sd?: number | undefined }
    | undefined;
  /** Of the summary; absent where its recordings cannot say. */
  readonly uncertainty?: UncertaintyFacts | undefined;
  /** In jump tests, in place of `summary`: the mean of the jumps that count. */
  readonly headline?: (HeadlineFacts & { readonly n: number }) | undefined;
  readonly trials: readonly TrialFacts[];
  readonly setup: Readonly<Record<string, string | number | boolean>>;
  readonly fields: readonly SetupField[];
  readonly bodyWeight?: { readonly value: number; readonly from: string } | undefined;
  readonly gravity: number;
  readonly rig?: string | undefined;
  /** The newest check of that rig before the session. */
  readonly rigCheck?: RigCheckFacts | undefined;
  readonly notes: string;
  readonly methods: readonly MethodFacts[];
  readonly protocol?: (ProtocolFacts & { readonly document?: ProtocolDocument | undefined }) | undefined;
}
