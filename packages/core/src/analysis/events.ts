import type { Outcome } from '../outcome.ts';
import type { SampleIndex, SampleSpan } from '../recording/sample.ts';

/** The quiet window an athlete pulled from. `mean` is B, `sd` is S of the definitions; unit of the forces. */
export interface Baseline extends SampleSpan {
  readonly mean: number;
  readonly sd: number;
}

/** Where the pull begins, with all that decided it. */
export interface Onset {
  readonly index: SampleIndex;
  readonly rule: string;
  /** Force (or slope, for the slope rule) that had to be exceeded. */
  readonly threshold: number;
  readonly thresholdUnit: string;
  readonly baseline: Baseline;
  /** Samples that were searched. */
  readonly search: SampleSpan;
  /** Set when a person placed it: who, why, and what the automatic rule said. */
  readonly byHand?: { readonly by: string; readonly reason: string; readonly automatic: Outcome<SampleIndex> };
}

/** Peak force: the first index of the largest force in (r, e]. */
export interface Peak {
  readonly index: SampleIndex;
  readonly force: number;
}

/**
 * The instants and levels of one isometric effort. Letters in comments are those of the definitions
 * (docs/reference/analysis.md).
 */
export interface EffortEvents {
  /** The samples the effort was sought in. */
  readonly span: SampleSpan;
  /** c: middle of the anchor window; M its mean. */
  readonly anchor: SampleIndex;
  readonly anchorMean: number;
  /** Q, and where it was found; `window` is absent when Q is a weighed or given body weight. */
  readonly quietLevel: number;
  readonly quietWindow?: SampleSpan;
  /** H = Q + 0.5 (M - Q). */
  readonly halfLevel: number;
  /** r: last index before c with F <= H. */
  readonly halfRise: SampleIndex;
  /** e: first index after c with F <= H, else the last sample. */
  readonly end: SampleIndex;
  readonly peak: Peak;
  readonly baseline: Outcome<Baseline>;
  readonly onset: Outcome<Onset>;
  /** q: last index before r with F <= B + 0.1 (F_p - B). */
  readonly riseStart: Outcome<SampleIndex>;
}
