import type { MethodFacts, MetricFacts } from './common.ts';
import type { ProtocolInput } from './protocol.ts';

/** What a paper says of how values were measured. */
export interface MethodsInput {
  readonly method: MethodFacts;
  readonly protocol: ProtocolInput;
  readonly metrics: readonly MetricFacts[];
  /** Local acceleration of free fall, m/s². */
  readonly gravity: number;
}
