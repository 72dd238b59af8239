import type { AnalysisRequest, ResultInShort, SampleIndex, SampleSpan, TrialResult, Verdict } from '@sthene/core';
import type { WeighedBefore } from './config.ts';

/** Height of the box, m; load carried, kg. */
export type JumpSetup = NonNullable<AnalysisRequest['jumpSetup']>;

export type EffortKind = 'maximal' | 'submaximal';

/** The band a submaximal effort aims at, gross force. */
export interface Target {
  readonly share: number;
  readonly aim: number;
  readonly low: number;
  readonly high: number;
  readonly from: 'own-best' | 'body-weight';
}

/** How close a submaximal effort came. */
export interface Closeness {
  readonly reached: number;
  /** 100 (reached - aim) / rise aimed at, %. */
  readonly deviation: number;
  readonly where: 'inside' | 'under' | 'over';
}

/** An accepted stand-still. */
export interface Weighing {
  readonly span: SampleSpan;
  /** Mean over the whole stand-still, N. */
  readonly bodyWeight: number;
  readonly sd: number;
  /** Difference of the half means, N. */
  readonly halves: number;
  readonly shareRight?: number;
  /** Means of its successive whole seconds, N: how sure the mean is. */
  readonly seconds: readonly number[];
}

/** The weight of a turn: weighed in it, or in an earlier test of the day. */
export interface KnownWeight extends Pick<Weighing, 'bodyWeight' | 'seconds' | 'shareRight'> {
  /** Set where it was weighed in an earlier test. */
  readonly from?: WeighedBefore;
}

/** How a trial ended. Everything but `released` was ended by rule. `not-still`: a jump without a second of standing still after it. */
export type TrialEnd = 'released' | 'aborted' | 'pain' | 'gap' | 'signal-lost' | 'too-long' | 'not-still';

/** What the engine holds against a trial beside the checks. */
export type EngineReason =
  | 'aborted'
  | 'pain-stop'
  | 'gap-in-pull'
  | 'signal-lost'
  | 'too-long'
  | 'pulled-without-cue'
  | 'cue-time-unknown'
  | 'cell-at-limit'
  /** Nobody stood still after the landing; said, and left to the checks. */
  | 'not-still'
  /** Nobody could say for sure that it was this athlete. */
  | 'identity-unsure';

/** One thing to change, said to the athlete. */
export interface Correction {
  /** Check, reason or state it answers to. */
  readonly for: string;
  readonly words: string;
}

/** A closed trial: all that is needed to analyse it again from the stored samples, and what came of it. */
export interface ClosedTrial {
  readonly turn: number;
  readonly person: string;
  readonly trial: number;
  readonly effort: EffortKind;
  /** In samples of the stream. Its first sample is sample 0 of the analysis. */
  readonly span: SampleSpan;
  /** Hz, as the analysis uses it. */
  readonly sampleRate: number;
  /** When the cue sounded, in samples of the stream. */
  readonly cue?: SampleIndex;
  /** N, from the stand-still of this turn, or of the one that `weighedBefore` names. */
  readonly bodyWeight?: number;
  /** Means of the successive whole seconds of that stand-still, N. */
  readonly weighing?: readonly number[];
  /** The weight was taken in an earlier test of the day. */
  readonly weighedBefore?: WeighedBefore;
  /** What the setup of a jump says. */
  readonly jumpSetup?: JumpSetup;
  /** Zero of each force channel in the unit of the test. */
  readonly zeros: Readonly<Record<string, number>>;
  readonly unloaded?: { readonly before: number; readonly after: number };
  readonly ended: TrialEnd;
  readonly result: TrialResult;
  readonly reasons: readonly EngineReason[];
  /** The worse of the analysis' verdict and the engine's reasons. */
  readonly verdict: Verdict;
  readonly target?: Target;
  readonly closeness?: Closeness;
}

/** A closed trial as the engine remembers it for the rest of the day. */
export type RememberedTrial = Omit<ClosedTrial, 'result'> & { readonly result: ResultInShort };
