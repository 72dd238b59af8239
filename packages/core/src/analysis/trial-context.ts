import type { Method } from '../methods/method.ts';
import type { Outcome } from '../outcome.ts';
import type { Protocol } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleIndex } from '../recording/sample.ts';
import type { EffortEvents, Onset } from './events.ts';

/** W and where it came from. */
export interface BodyWeight {
  readonly value: number;
  readonly unit: string;
  readonly from: 'weighing' | 'given' | 'baseline';
}

/**
 * Everything a metric or a check may look at. `forces` are already filtered when the method says so; `unfiltered` are the
 * same arrays before. For the spread the same context is used with another `onset`.
 */
export interface TrialContext {
  readonly forces: Forces;
  readonly unfiltered: Forces;
  readonly protocol: Protocol;
  readonly method: Method;
  readonly events: EffortEvents;
  readonly onset: Outcome<Onset>;
  /** Absent outcome with `needs-body-weight` in tests without body weight. */
  readonly bodyWeight: Outcome<BodyWeight>;
  /** g of the site, m/s^2. */
  readonly gravity: number;
  /** When the cue sounded, in samples (may be fractional), where known. */
  readonly cue?: SampleIndex;
  /** Onsets under the automatic rules, by rule id; computed once and shared. */
  readonly onsets: () => Readonly<Record<string, Outcome<Onset>>>;
  /**
   * What several onsets of one trial share, by a name of its owner; see `shared`. Absent: everything is computed afresh.
   */
  readonly memo?: Map<string, unknown>;
  /** Unloaded means before and after the turn, where the capture knew them (live only). */
  readonly unloaded?: { readonly before: number; readonly after: number };
}

/**
 * A value that does not depend on the onset, computed once for all onsets of a trial.
 *
 * Never kept beyond one analysis: whoever owns the samples may change them afterwards.
 */
export function shared<T>(trial: TrialContext, name: string, compute: () => T): T {
  const { memo } = trial;
  if (!memo) return compute();
  if (!memo.has(name)) memo.set(name, compute());
  return memo.get(name) as T;
}
