import type { Forces } from '@sthene/core';
import type { Person } from './person.ts';
import type { JumpStage } from './phase.ts';
import type { Block } from './stream/block.ts';
import type { KnownWeight } from './trial.ts';

/** One stay of an athlete on the rig. */
export interface Turn {
  readonly number: number;
  /** Another one once it is known who really stands there. */
  person: Person;
  armed: boolean;
  held: boolean;
  weighing?: KnownWeight;
  /** Answered or not needed: this is the athlete it should be. */
  identified: boolean;
  /** Whoever steps on has still to be seen to weigh what was weighed in the earlier test; the blocks since they did. */
  glance?: Block[];
  /** The weighing of the earlier test does not stand in this turn. */
  weighAgain: boolean;
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
  /** Drop jump: since when the athlete has been off the plates on the way to the box, which is no stepping off. */
  boarded?: number;
  /** Drop jump: whoever is due has stood on the plates since the last attempt, so leaving them now is going to the box. */
  mayBoard: boolean;
}

/** A question that waits for a person. */
export interface Question {
  readonly id: string;
  readonly code: 'zero-moved' | 'is-this-the-athlete' | 'look-again';
  readonly answers: readonly string[];
  readonly act: (answer: string, by: string) => void;
}

/** A jump under way, or a series of hops. */
export interface JumpUnderWay {
  readonly start: number;
  /** Since when somebody stood on the plates as it began. */
  readonly standing: number;
  stage: JumpStage;
  /** Since when the plates are empty. */
  air?: number;
  flights: number;
  /** First touchdown after the flight; of a series the last one. */
  touchdown?: number;
  /** Whole blocks in a row since the landing. */
  readonly recent: Block[];
}

/** The attempt at an effort under way: count, cue, pull or jump. */
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
  jump?: JumpUnderWay;
  /** First of the blocks above the pull's threshold, or away from the stance. */
  rising?: number;
  /** Since when the plates are empty while a jump is waited for. */
  air?: number;
  /** Mean force of the stance in which the count began. */
  stance?: number;
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
