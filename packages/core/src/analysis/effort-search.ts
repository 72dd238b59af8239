import type { Method } from '../methods/method.ts';
import type { Protocol } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { samplesIn, touchesGap } from '../signal/index.ts';

/** Force under which nobody stands on the plates, N. */
export const leastStanding = 100;
/** Largest SD of a standing window, share of its mean. */
export const standingUnrest = 0.15;
/** Largest SD of a baseline window, share of its mean. */
export const baselineUnrest = 0.05;
/** How long before the anchor standing is sought, s. */
export const standingSearch = 10;
/** Least rise of an effort above its baseline, N. */
export const leastRise = 50;

/** What the search for an effort works with; lengths in samples unless said otherwise. */
export interface EffortSearch {
  readonly forces: Forces;
  readonly span: SampleSpan;
  /** w: standing and baseline window. */
  readonly width: number;
  /** v: anchor window. */
  readonly anchorWidth: number;
  /** Longest time a baseline window may end before r; may be fractional. */
  readonly reach: number;
  /** Distance the baseline keeps from the latest quiet window. */
  readonly clearance: number;
  /** False in a test without body weight: limits in newtons and in share of the mean are dropped. */
  readonly weighted: boolean;
  /** A weighed or given W, in the unit of the forces. */
  readonly weight: number | undefined;
}

/** Turns a method's seconds into samples. A window holds at least two samples, the anchor at least one. */
export function effortSearch(
  forces: Forces,
  span: SampleSpan,
  protocol: Protocol,
  method: Method,
  weight: number | undefined,
): EffortSearch {
  const { baseline, anchor, search, clearance } = method.window;
  const weighted = protocol.load === 'weight';
  return {
    forces,
    span,
    width: Math.max(2, samplesIn(baseline, forces.sampleRate)),
    anchorWidth: Math.max(1, samplesIn(anchor, forces.sampleRate)),
    reach: search * forces.sampleRate,
    clearance: samplesIn(clearance, forces.sampleRate),
    weighted,
    weight: weighted ? weight : undefined,
  };
}

/** True when a window of `width` samples from `start` holds no sample of an open gap. */
export const isWhole = (forces: Forces, start: number, width: number): boolean =>
  !touchesGap(forces, start, start + width - 1);
