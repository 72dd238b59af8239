import type { Measured, MetricDefinition } from '../../metrics/metric.ts';
import type { JumpKind } from '../../protocols/protocol.ts';
import type { JumpContext } from '../jump-context.ts';

/** A released metric of a jump: the same facts as any metric, and the kinds of jump that have it. Never edited. */
export interface JumpMetricDefinition extends Omit<MetricDefinition, 'compute'> {
  readonly kinds: readonly JumpKind[];
  readonly compute: (jump: JumpContext) => Measured;
}
