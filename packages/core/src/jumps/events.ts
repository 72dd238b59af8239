import type { Outcome } from '../outcome.ts';
import type { JumpKind } from '../protocols/protocol.ts';
import type { SampleIndex, SampleSpan } from '../recording/sample.ts';

/** The quiet stand from which W was taken. Means and SD in N. */
export interface WeighingWindow extends SampleSpan {
  /** Where it lies: before the movement (standing or in the hold of a squat jump), or after the landing of a drop jump. */
  readonly place: 'before' | 'after';
  /** How it was chosen: it ends at the cue, or it is the quiet second nearest the movement. */
  readonly chosenBy: 'cue' | 'quiet';
  readonly mean: number;
  readonly sd: number;
  /** Slope of the least-squares line, N/s. */
  readonly slope: number;
  /** Mean of the second half less that of the first, N. */
  readonly halves: number;
}

/** The force that tells ground from air, and how it was found. N. */
export interface FlightThreshold {
  /** Rule id: `five-sd-of-flight`, `fixed-10`, `fixed-20`, `fixed-30`. */
  readonly rule: string;
  readonly value: number;
  /** The middle of the flight, with mean and SD of the force there; measured for a fixed threshold too. */
  readonly window: SampleSpan;
  readonly flightMean: number;
  readonly flightSd: number;
  /** What was taken off every sample because the plates read so much in flight; 0 when their zero held. */
  readonly zeroOffset: number;
}

/** An instant with the value that marks it. */
export interface JumpMark {
  readonly index: SampleIndex;
  readonly value: number;
  readonly unit: string;
}

/** One time on the ground between two times in the air. */
export interface Contact {
  readonly touchdown: SampleIndex;
  readonly takeOff: SampleIndex;
  /** The touchdown that ends the flight after it. */
  readonly nextTouchdown: SampleIndex;
}

/** A phase with the rule that bounds it. `end` is exclusive and is the start of the next. */
export interface JumpPhase extends SampleSpan {
  readonly id: 'weighing' | 'unweighting' | 'braking' | 'propulsion' | 'flight' | 'landing';
  /** Id of the definition, as in docs/reference/jumps.md. */
  readonly definition: string;
}

/**
 * The instants of one jump, or of one series of hops.
 *
 * Official events are whole samples. `takeOffExact` and `touchdownExact` are the interpolated crossings of the threshold, for
 * comparison only: no metric uses them. In a series of hops `takeOff` and `touchdown` are those of the highest hop.
 */
export interface JumpEvents {
  readonly kind: JumpKind;
  readonly span: SampleSpan;
  readonly weighing: Outcome<WeighingWindow>;
  readonly threshold: FlightThreshold;
  /** Lowest force between onset and take-off, in the way down. */
  readonly lowestForce?: JumpMark;
  /** Largest downward velocity, m/s. */
  readonly peakNegativeVelocity?: JumpMark;
  /** Lowest position of the centre of mass, m from where it stood (drop jump: from where it touched down). */
  readonly lowestPosition?: JumpMark;
  /** First sample that moves upward: propulsion begins. */
  readonly propulsionStart?: SampleIndex;
  /** Largest force from onset (touchdown) to take-off, N. */
  readonly peakForce?: JumpMark;
  readonly takeOff: SampleIndex;
  readonly touchdown: SampleIndex;
  readonly takeOffExact: SampleIndex;
  readonly touchdownExact: SampleIndex;
  /** First sample after the landing that no longer moves downward. */
  readonly endOfLanding?: SampleIndex;
  /** Drop jump: when the plates are first touched. */
  readonly firstTouchdown?: SampleIndex;
  /** Every contact: one in a drop jump, each hop of a series; empty otherwise. */
  readonly contacts: readonly Contact[];
  readonly phases: readonly JumpPhase[];
}
