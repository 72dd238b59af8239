import type { IntervalFacts, PersonFacts } from './common.ts';

/** Value of a test on a day, as the station has it. */
export interface TestedFacts {
  readonly test: string;
  readonly metric: string;
  readonly unit: string;
  readonly value: number;
  readonly at: string;
  readonly n: number;
  readonly maximal: number;
  readonly error?: number | undefined;
  readonly errorFrom?: 'adopted' | 'sessions' | 'trials' | undefined;
}

export interface RatioSideFacts extends TestedFacts {
  readonly role: 'jump' | 'isometric' | 'countermovement' | 'squat' | 'both' | 'left' | 'right';
}

export interface RatioFacts {
  readonly id: 'dynamic_strength_index' | 'eccentric_utilisation_ratio' | 'bilateral_index';
  readonly unit: string;
  readonly source: string;
  readonly limits: readonly number[];
  readonly current?:
    | {
        readonly at: string;
        readonly days: number;
        readonly value: number;
        readonly error?: number | undefined;
        readonly interval?: IntervalFacts | undefined;
        readonly word:
          | 'strength'
          | 'balanced'
          | 'ballistic'
          | 'gain'
          | 'no-gain'
          | 'deficit'
          | 'facilitation'
          | 'undecided';
        readonly because?: 'interval-crosses' | 'isometric-low' | 'no-error' | undefined;
        readonly components: readonly RatioSideFacts[];
        readonly cautions: readonly (
          | 'first-session'
          | 'days-apart'
          | 'arms-differ'
          | 'dip'
          | 'squat-jump-used'
          | 'error-of-trials'
        )[];
      }
    | undefined;
  readonly lack?:
    | {
        readonly reason: 'test-missing' | 'no-value' | 'too-far-apart' | 'other-method';
        readonly tests: readonly string[];
        readonly days?: number | undefined;
        readonly received: number;
      }
    | undefined;
}

/** Why there is no force-velocity profile, or no line through its points. */
export interface ProfileLackFacts {
  readonly reason: 'no-loads' | 'loads-not-written' | 'too-few-loads' | 'no-push-off' | 'no-fit';
  readonly loads: number;
  readonly needed: number;
  /** Sessions whose load nobody wrote down. */
  readonly loadMissing: number;
}

export interface ProfileFacts {
  readonly at: string;
  /** Push-off distance, m, and where it comes from. */
  readonly pushOff: number;
  readonly pushOffFrom: 'given' | 'plates';
  readonly points: readonly { readonly load: number; readonly force: number; readonly velocity: number }[];
  readonly line?:
    | {
        readonly f0: number;
        readonly v0: number;
        readonly powerMax: number;
        readonly r2: number;
        readonly accepted: boolean;
        readonly intervals: Readonly<Record<'f0' | 'v0' | 'powerMax', IntervalFacts>>;
      }
    | undefined;
}

/** The tests of one athlete that belong together, and what they say together, as the station worked it out. */
export interface BatteryInput {
  readonly person: PersonFacts;
  /** Days that may lie between the tests of one ratio. */
  readonly apart: number;
  readonly tests: readonly TestedFacts[];
  readonly ratios: readonly RatioFacts[];
  readonly profile?: ProfileFacts | undefined;
  readonly profileLack?: ProfileLackFacts | undefined;
}
