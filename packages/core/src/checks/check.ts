import type { TrialContext } from '../analysis/trial-context.ts';
import type { SampleSpan } from '../recording/sample.ts';

export type CheckStatus = 'pass' | 'warn' | 'fail' | 'not-judged';

/** What a check says of one trial, with the samples it judged. */
export interface CheckResult {
  readonly status: CheckStatus;
  /** The judged quantity, absent when not judged. */
  readonly value?: number;
  /** The limit that decided: the fail limit when failed, else the warn limit (the nearer one when passed). */
  readonly limit?: number;
  readonly unit: string;
  /** Why it was not judged, in a permanent code; absent otherwise. */
  readonly notJudged?:
    | 'not-in-file'
    | 'not-for-this-test'
    | 'no-onset'
    | 'no-baseline'
    | 'no-effort'
    | 'no-body-weight'
    | 'too-short'
    | 'one-side-only'
    | 'gap'
    | 'no-cue';
  readonly judged?: SampleSpan;
  /** Marks to draw: instants and levels. */
  readonly marks?: readonly { readonly at: number; readonly force: number; readonly label: string }[];
}

/** A released check on a trial. */
export interface CheckDefinition {
  readonly id: string;
  readonly version: number;
  /** What is so when it passes. */
  readonly title: string;
  /** What is so when it does not, in a few plain words. */
  readonly finding: string;
  /** Plain words: what it looks for and why it matters. */
  readonly why: string;
  /** The definition, as shown when opened. */
  readonly definition: string;
  readonly source: string;
  readonly unit: string;
  /** `rates`: a warning or failure touches only rates of force development; peak force may still stand. */
  readonly scope: 'trial' | 'rates';
  /** Set where the limits are the least there may be; absent: they are the most. */
  readonly bound?: 'least';
  readonly defaultLimits: Readonly<Record<string, number>>;
  readonly judge: (trial: TrialContext, limits: Readonly<Record<string, number>>) => CheckResult;
}
