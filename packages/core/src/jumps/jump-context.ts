import type { Onset } from '../analysis/events.ts';
import type { AnalysisRequest } from '../analysis/request.ts';
import type { BodyWeight } from '../analysis/trial-context.ts';
import type { Outcome } from '../outcome.ts';
import type { JumpKind, Protocol } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleIndex } from '../recording/sample.ts';
import type { JumpEvents, WeighingWindow } from './events.ts';
import type { DropRule } from './method/jump-method.ts';
import type { Motion } from './motion.ts';

/** Everything a jump metric or check may look at. For the spread the same is built with another onset or threshold. */
export interface JumpContext {
  /** After the method's filter, and after a drifted zero was taken off. */
  readonly forces: Forces;
  readonly unfiltered: Forces;
  readonly protocol: Protocol;
  readonly kind: JumpKind;
  /** How the velocity at touchdown of a drop jump is found; absent: from the stand after the landing. */
  readonly drop?: DropRule;
  readonly gravity: number;
  readonly events: JumpEvents;
  readonly onset: Outcome<Onset>;
  /** W of body and load. */
  readonly bodyWeight: Outcome<BodyWeight>;
  /**
   * Velocity and position from onset (drop jump: first touchdown) to the end of the span (by other rules, to the end of the landing at
   * least); the reason why there is none.
   */
  readonly motion: Outcome<Motion>;
  /** The quiet second after the landing, where there is one. */
  readonly stance: Outcome<WeighingWindow>;
  /** A weighing of the session or a given weight, N. */
  readonly known?: NonNullable<AnalysisRequest['bodyWeight']>;
  readonly setup: NonNullable<AnalysisRequest['jumpSetup']>;
  readonly cue?: SampleIndex;
}
