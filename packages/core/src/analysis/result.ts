import type { CheckResult } from '../checks/check.ts';
import type { JumpEvents } from '../jumps/events.ts';
import type { MethodReference } from '../methods/method.ts';
import type { Measured } from '../metrics/metric.ts';
import type { Outcome, Reason } from '../outcome.ts';
import type { SampleSpan } from '../recording/sample.ts';
import type { EffortEvents, Onset } from './events.ts';
import type { BodyWeight } from './trial-context.ts';

export type Verdict = 'counts' | 'look-again' | 'repeat';

/** How far one value moves under the other published onset rules, on this very curve. */
export interface Spread {
  readonly min: number;
  readonly max: number;
  readonly by: Readonly<Record<string, number>>;
}

/** One judged effort. Carries all that is needed to draw its evidence; nothing is recomputed by a screen. */
export interface TrialResult {
  readonly test: string;
  readonly testVersion: number;
  readonly method: MethodReference;
  readonly sampleRate: number;
  readonly span: SampleSpan;
  /** Set when there is no effort to measure; then events are absent and every metric carries this reason. */
  readonly reason?: Reason;
  readonly events?: EffortEvents;
  /** Events of a jump, in a jump test; then `events` is absent. */
  readonly jump?: JumpEvents;
  readonly onset: Outcome<Onset>;
  readonly bodyWeight: Outcome<BodyWeight>;
  readonly gravity: number;
  readonly metrics: Readonly<Record<string, Measured>>;
  readonly checks: Readonly<Record<string, CheckResult>>;
  readonly spread: Readonly<Record<string, Spread>>;
  /** Onsets under every automatic rule, by id. */
  readonly onsets: Readonly<Record<string, Outcome<Onset>>>;
  readonly verdict: Verdict;
}
