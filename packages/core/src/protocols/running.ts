import type { Protocol } from './protocol.ts';
import { type JumpRules, jumpRunning } from './running-jumps.ts';

/**
 * How a test is run live: data beside the protocol, with a version of its own, because none of it changes what a stored number
 * means. Seconds are seconds of samples. Where no source is named a default is a proposal of this program.
 */
export interface RunningRules {
  readonly schema: 'sthene.running/1';
  readonly test: string;
  readonly version: number;
  /** Submaximal efforts before the first maximal one, in order. */
  readonly warmUp: readonly SubmaximalEffort[];
  readonly rest: RestRules;
  readonly zero: ZeroRules;
  readonly still: StillRules;
  readonly ready: ReadyRules;
  readonly cue: CueRules;
  readonly pull: PullRules;
  /** In a jump test; `pull` says nothing then. */
  readonly jump?: JumpRules;
  readonly identity: IdentityRules;
  readonly stop: StopRules;
  /** Stepping off and returning within this time is the same turn, s. */
  readonly awaySeconds: number;
  /** When another maximal effort is asked for; the method's set rule where absent. */
  readonly agreement?: AgreementRules;
  /** Agreement limit as a share of the best for minors; replaces the method's newtons where the method has no share. */
  readonly minorAgreementShare: number;
}

/**
 * A submaximal effort. Aim = W + share * (best - W), with best the athlete's own best gross peak; before there is one,
 * best = W + `weightShare` * W. Without body weight: share * best.
 */
export interface SubmaximalEffort {
  readonly share: number;
  /** Half the width of the target band, as a share of the aimed rise. */
  readonly band: number;
  /** Rise expected of a maximal effort as a multiple of body weight, before there is an own best. */
  readonly weightShare: number;
}

/** The two best may differ by so much: a share of the best where one is given, else so many newtons. */
export interface AgreementRules {
  readonly difference: number;
  readonly share?: number;
}

/** Rest between efforts of one athlete, s. */
export interface RestRules {
  readonly afterSubmaximal: number;
  readonly minimum: number;
  /** After this a maximal effort needs a submaximal one first. */
  readonly maximum: number;
}

export interface ZeroRules {
  /** Every plate reads less than this from its zero, N. */
  readonly limit: number;
  readonly quietSeconds: number;
  /** Largest SD of one plate over the quiet time, N. */
  readonly sd: number;
  /** Largest difference among the fifths of the quiet time, N. */
  readonly wander: number;
  /** A zero that moved by more than this asks, N. */
  readonly moved: number;
  /** A zero that wandered by no more than this while the athlete was off is held, N. */
  readonly held: number;
  /** Unquiet or loaded plates are said after this time, s. */
  readonly sayAfter: number;
}

export interface StillRules {
  /** Length that is asked for; never under 2 s. */
  readonly seconds: number;
  /** SD as a share of the mean. */
  readonly sdShare: number;
  /** Difference of the two half means as a share of the mean. */
  readonly halvesShare: number;
  /** A 20 ms mean that lies further than this share from the mean so far starts the countdown again. */
  readonly moveShare: number;
  readonly sayAfter: number;
}

export interface ReadyRules {
  /** Tension band around body weight, N. */
  readonly below: number;
  readonly above: number;
  /** Largest difference of 20 ms means over `steadySeconds`, N. */
  readonly steadyRange: number;
  readonly steadySeconds: number;
  /** Steady for so long without a cue says "relax". */
  readonly relaxAfter: number;
  /** Hands-free: on the plates for so long confirms the setup. */
  readonly setUpSeconds: number;
}

export interface CueRules {
  /** Hands-free: steady tension for so long starts the count. */
  readonly delay: number;
  /** Counted seconds before the cue. */
  readonly count: number;
  /** The device also says count and cue; the tone sounds in any case. */
  readonly spoken?: boolean;
  /** The device that sounds the cue answers within this time. */
  readonly answer: number;
  /** No pull within this time voids the attempt. */
  readonly wait: number;
  /** Hands-free: the verdict is shown for so long before rest. */
  readonly verdictSeconds: number;
}

export interface PullRules {
  /** A pull is a 20 ms mean above body weight by max(`rise`, `riseShare` * W) for `sustain` seconds. */
  readonly rise: number;
  readonly riseShare: number;
  readonly sustain: number;
  /** A trial closes this long after its end. */
  readonly closeAfter: number;
  /** Longest pull before it is closed by rule, as time beyond the planned length. */
  readonly beyondPlanned: number;
  /** Kept before the pull, s. */
  readonly before: number;
  /** An uncued rise under this share of the expected one is no effort. */
  readonly leastShare: number;
}

export interface IdentityRules {
  /** Body weight further than this share from the athlete's last asks. */
  readonly weightShare: number;
  /** Standing share further than so many percentage points from the usual one asks. */
  readonly sharePoints: number;
  /** Tension before the cue further than this from the usual one asks, N. A proposal. */
  readonly tension: number;
}

export interface StopRules {
  /** So many rejected maximal efforts one after the other advise to stop. */
  readonly rejectedInARow: number;
  /** A counting peak this share below the best of the day advises to stop. */
  readonly fall?: number;
  /** The maximal efforts end instead of only an advice being given. */
  readonly closes?: boolean;
}

const rules: Omit<RunningRules, 'test' | 'rest'> = {
  schema: 'sthene.running/1',
  version: 1,
  // Submaximal efforts at about half and three quarters: Comfort et al. 2019, Strength Cond J 41(2):57-79 (from memory).
  warmUp: [
    { share: 0.5, band: 0.15, weightShare: 1.5 },
    { share: 0.75, band: 0.1, weightShare: 1.5 },
  ],
  zero: { limit: 20, quietSeconds: 1, sd: 10, wander: 5, moved: 10, held: 5, sayAfter: 3 },
  still: { seconds: 3, sdShare: 0.01, halvesShare: 0.0025, moveShare: 0.04, sayAfter: 15 },
  ready: {
    below: 35,
    above: 35,
    steadyRange: 35,
    steadySeconds: 1,
    relaxAfter: 5,
    setUpSeconds: 2,
  },
  cue: { delay: 1, count: 3, answer: 1, wait: 6, verdictSeconds: 3 },
  pull: {
    rise: 120,
    riseShare: 0.15,
    sustain: 0.1,
    closeAfter: 0.5,
    beyondPlanned: 7,
    before: 12,
    leastShare: 0.25,
  },
  identity: { weightShare: 0.03, sharePoints: 8, tension: 25 },
  stop: { rejectedInARow: 3 },
  awaySeconds: 60,
  minorAgreementShare: 0.1,
};

/** Rest after a submaximal effort, s: a jump tires less than a pull. */
const afterSubmaximal = { pull: 60, jump: 30 };

/** How a test is run, with the defaults of this version; rest follows the protocol. */
export const runningRules = (protocol: Protocol): RunningRules => ({
  ...rules,
  ...(protocol.jump === undefined ? {} : jumpRunning(protocol.jump, rules.ready, rules.cue)),
  test: protocol.id,
  rest: {
    afterSubmaximal: Math.min(afterSubmaximal[protocol.jump === undefined ? 'pull' : 'jump'], protocol.restSeconds),
    minimum: protocol.restSeconds,
    maximum: Math.max(600, 5 * protocol.restSeconds),
  },
});
