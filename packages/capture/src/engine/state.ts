import type { Forces } from '@sthene/core';
import type { Person } from './person.ts';
import type { Weighing } from './trial.ts';

/** One stay of an athlete on the rig. */
export interface Turn {
  readonly number: number;
  /** Another one once it is known who really stands there. */
  person: Person;
  armed: boolean;
  held: boolean;
  weighing?: Weighing;
  /** Answered or not needed: this is the athlete it should be. */
  identified: boolean;
  /** Nobody knows yet who it is. */
  unknown: boolean;
  /** Something was unlike the athlete and nobody could say for sure: every effort of the turn is looked at again. */
  unsure: boolean;
  /** The tension habit was asked about in this turn. */
  tensionAsked: boolean;
  /** The zero was taken for this turn. */
  zeroed: boolean;
  /** SD of the total over the zero, in the unit of the test. */
  zeroSd: number;
  /** A moved zero was accepted by a person. */
  movedAccepted: boolean;
  /** The athlete has been on the plates in this turn. */
  wasOn: boolean;
  /** Stepped off in mid-turn; the quiet mean since, as far as known. */
  away?: { readonly since: number; held?: boolean };
}

/** A question that waits for a person. */
export interface Question {
  readonly id: string;
  readonly code: 'zero-moved' | 'is-this-the-athlete' | 'look-again';
  readonly answers: readonly string[];
  readonly act: (answer: string, by: string) => void;
}

/** The attempt at a pull under way: count, cue, pull. */
export interface Attempt {
  count?: { readonly from: number; said: number };
  request?: { readonly cue: string; readonly at: number; late: boolean };
  cue?: number;
  pull?: {
    readonly start: number;
    /** Since when somebody stood on the plates as it began; who leaves them in mid-pull comes back to another since. */
    readonly standing: number;
    largest: number;
    below: number | undefined;
    readonly recent: number[];
  };
  /** First of the blocks above the pull's threshold. */
  rising?: number;
}

/** A closed trial that waits for the unloaded mean after it. */
export interface Unreviewed {
  readonly person: Person;
  /** Position among the person's trials. */
  readonly at: number;
  readonly forces: Forces;
  /** Unloaded mean after the trial, once there is one. */
  after?: number;
}
