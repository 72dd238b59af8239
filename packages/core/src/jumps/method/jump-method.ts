import type { CheckChoice, LowPassFilter, Method, OnsetChoice, SetRule } from '../../methods/method.ts';

/**
 * A jump method: a named, versioned, hashed, unchangeable recipe for jump tests, beside the methods of isometric tests. Its hash
 * is made as theirs is. Seconds are seconds of samples; forces in N.
 */
export interface JumpMethod {
  readonly schema: 'sthene.jump-method/1';
  readonly name: string;
  readonly version: number;
  /** One sentence for people; not part of the hash. */
  readonly summary: string;
  /** Absent: no filter, as impulse, height, power and events want it. */
  readonly filter?: LowPassFilter;
  readonly weighing: WeighingRule;
  /** Where the jump begins; the rule brings its threshold and its step back with it. */
  readonly onset: OnsetChoice;
  readonly flight: FlightRule;
  /** Drop jumps: how the velocity at touchdown is found. Absent: from the quiet stand after the landing, on one plate. */
  readonly drop?: DropRule;
  readonly split: SplitRule;
  /** Metric id to version; each test gives those of its kind. */
  readonly metrics: Readonly<Record<string, number>>;
  /** Check id to version and limits; each test gives those of its kind. */
  readonly checks: Readonly<Record<string, CheckChoice>>;
  /** How a set of jumps becomes one value; agreement on the headline metric of the test, as a share of the best. */
  readonly set: SetRule;
  readonly derivedFrom?: {
    readonly name: string;
    readonly version: number;
    readonly sha256: string;
    readonly changes: Readonly<Record<string, number | string>>;
  };
}

/** How the quiet second is found. */
export interface WeighingRule {
  /** Length of the window, s. */
  readonly window: number;
  /** Longest time before take-off (after the landing) that is searched, s. */
  readonly search: number;
  /** Distance the window keeps from the movement when no cue is known, s. */
  readonly clearance: number;
}

/** How take-off and touchdown are told. */
export interface FlightRule {
  /** `five-sd-of-flight`, `fixed-10`, `fixed-20`, `fixed-30`. */
  readonly rule: string;
  readonly version: number;
  /** Threshold of the first pass, N. */
  readonly firstPass: number;
  /** Middle piece of the flight that is measured, s; in a shorter flight the share below. */
  readonly middle: number;
  readonly middleShare: number;
  /** The least threshold, for plates that give exactly nothing when unloaded, N. */
  readonly least: number;
  /** Least time under the threshold that makes a flight, s. */
  readonly leastTime: number;
  /** A mean force in flight beyond this is taken off as a drifted zero, N. */
  readonly rezero: number;
}

/**
 * `stand-on-box`: the box stands on a plate of its own, zeroed with it, and the sum of all plates is integrated from the quiet stand on the
 * box to the touchdown.
 */
export interface DropRule {
  readonly rule: 'stand-on-box';
  readonly version: 1;
}

/** What is a jump and what is stepping, walking or a bounce. */
export interface SplitRule {
  /** Longest time in the air, s. */
  readonly longestFlight: number;
  /** The push reaches this multiple of the standing force, the landing that one. */
  readonly push: number;
  readonly landing: number;
  /** A shorter time on the ground after a landing is a bounce, not a jump of its own, s. */
  readonly bounce: number;
  /** Longest contact of a drop jump and between hops, s. */
  readonly contact: number;
  /** Fewer contacts are no series of hops. */
  readonly leastHops: number;
}

/** A recipe of either kind, as it is kept beside results. */
export type AnyMethod = Method | JumpMethod;

/** Whether a recipe is one for jumps. */
export const isJumpMethod = (method: AnyMethod): method is JumpMethod => method.schema === 'sthene.jump-method/1';
