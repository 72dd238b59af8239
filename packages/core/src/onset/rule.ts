import type { Baseline, Onset } from '../analysis/events.ts';
import type { BodyWeight } from '../analysis/trial-context.ts';
import type { Outcome } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleIndex, SampleSpan } from '../recording/sample.ts';

/** What an onset rule may look at. Letters are those of docs/reference/analysis.md. */
export interface OnsetInput {
  /** F in `forces.total`, after the method's filter. */
  readonly forces: Forces;
  readonly span: SampleSpan;
  /** B and S with their window. */
  readonly baseline: Baseline;
  /** H. */
  readonly halfLevel: number;
  /** r. */
  readonly halfRise: SampleIndex;
  /** q, or why there is none. */
  readonly riseStart: Outcome<SampleIndex>;
  /** e. */
  readonly end: SampleIndex;
  /** W; `needs-body-weight` in a test without body weight. */
  readonly bodyWeight: Outcome<BodyWeight>;
  /** False in a test without body weight, where limits in newtons do not apply. */
  readonly weighted: boolean;
}

/** A released onset rule. Never edited: a changed number is a new version beside the old one. */
export interface OnsetRule {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  /** The definition, as shown when opened. */
  readonly definition: string;
  readonly source: string;
  /** Reads the curve alone. Only such rules enter the method spread. */
  readonly automatic: true;
  readonly find: (input: OnsetInput) => Outcome<Onset>;
}

/** The rule by which a person places the onset; it needs more than the curve, see `placeOnset`. */
export interface HandRule extends Omit<OnsetRule, 'automatic' | 'find'> {
  readonly automatic: false;
}
