import type { TrialContext } from '../analysis/trial-context.ts';
import type { Reason } from '../outcome.ts';
import type { SampleSpan } from '../recording/sample.ts';

/** A measured value with the piece of curve it came from, or the reason why there is none. */
export type Measured =
  | { readonly value: number; readonly unit: string; readonly evidence: MetricEvidence; readonly exponent?: number }
  | { readonly reason: Reason; readonly evidence?: MetricEvidence };

/** What a screen draws to show where a value comes from; sample positions may be fractional. */
export interface MetricEvidence {
  /** The interval used. For one instant start = end. */
  readonly interval?: SampleSpan;
  /** Points on a curve that entered the formula. */
  readonly points?: readonly { readonly at: number; readonly force: number; readonly of: 'total' | 'left' | 'right' }[];
  /** Named numbers that entered the formula, in the order they are read aloud. */
  readonly terms?: readonly { readonly name: string; readonly value: number; readonly unit: string }[];
}

/** A released metric. Never edited: a changed number is a new version beside the old one. */
export interface MetricDefinition {
  readonly id: string;
  readonly version: number;
  /** UCUM code in tests in newtons; in other units the force part is replaced by the recording's unit. */
  readonly unit: string;
  readonly title: string;
  /** Shown when a value is opened. */
  readonly formula: string;
  readonly source: string;
  /** True when another onset rule could move it; such metrics have a spread. */
  readonly dependsOnOnset: boolean;
  /** Which way is better, for words on change; 'neither' for descriptive values. */
  readonly better: 'higher' | 'lower' | 'neither';
  /** True for rates of force development and other values the "rates only" checks speak about. */
  readonly rate: boolean;
  readonly compute: (trial: TrialContext) => Measured;
}
