import type { JumpTest } from './protocol.ts';
import type { CueRules, ReadyRules } from './running.ts';

/**
 * How a jump is followed live. None of it changes a number: what is measured is measured by the jump method from the recorded
 * samples. All values are proposals of this program where no source is named.
 */
export interface JumpRules {
  /** After the cue a jump begins where 20 ms means leave body weight by max(`leave`, `leaveShare` * W) for `sustain` seconds, N. */
  readonly leave: number;
  readonly leaveShare: number;
  readonly sustain: number;
  /** Under this sum nobody touches the plates, N. */
  readonly unloaded: number;
  /** Unloaded for so long is a flight, s. */
  readonly leastFlight: number;
  /** Unloaded for longer is stepping off, s. */
  readonly longestFlight: number;
  /** A flight that begins sooner after a landing is its bounce, s. */
  readonly bounce: number;
  /** Standing still after the landing closes the jump: 20 ms means within this share of their mean for so long, s. */
  readonly stillSeconds: number;
  readonly stillShare: number;
  /** Without standing still a jump closes so long after the touchdown, s. */
  readonly latest: number;
  /** Longest series of hops, s. */
  readonly longestSeries: number;
}

/** What a jump changes in the usual rules. */
export interface JumpRunning {
  readonly ready: ReadyRules;
  readonly cue: CueRules;
  readonly jump: JumpRules;
}

const jump: JumpRules = {
  leave: 40,
  leaveShare: 0.08,
  sustain: 0.04,
  // The usual threshold of portable plates; a time under it as in the jump method's first pass.
  unloaded: 20,
  leastFlight: 0.1,
  longestFlight: 1.2,
  bounce: 0.5,
  // A second of standing still after the landing: McMahon et al. 2021, Biomechanics 1(2):178-189.
  stillSeconds: 1,
  stillShare: 0.02,
  latest: 3,
  longestSeries: 18,
};

/**
 * Rules of a jump test: those of a pull with a stance instead of a tension.
 *
 * In a squat jump the squat is held while the count runs, so the count is short: with the second of steadiness and the delay it
 * makes a hold of two to three seconds (common practice). In a drop jump the plates are empty until the cue.
 */
export function jumpRunning({ kind }: JumpTest, ready: ReadyRules, cue: CueRules): JumpRunning {
  switch (kind) {
    case 'squat':
      return {
        ready: { ...ready, below: 60, above: 60, steadyRange: 60 },
        cue: { ...cue, delay: 0.5, count: 1 },
        jump,
      };
    case 'drop':
      return {
        ready: { ...ready, below: 20, above: 20, steadyRange: 20 },
        cue,
        // The stance after the landing is the one that is weighed.
        jump: { ...jump, stillSeconds: 1.2, stillShare: 0.01 },
      };
    default:
      return { ready, cue, jump };
  }
}
