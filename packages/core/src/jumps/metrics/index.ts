import { type Registry, registry } from '../../registry.ts';
import { dropMetrics } from './drop.ts';
import { jumpForceMetrics } from './forces.ts';
import { heightMetrics } from './height.ts';
import { hopMetrics } from './hops.ts';
import { impulseMetrics } from './impulses.ts';
import { landingMetrics } from './landing.ts';
import type { JumpMetricDefinition } from './metric.ts';
import { powerMetrics } from './power.ts';
import { jumpSideMetrics } from './sides.ts';
import { timeMetrics } from './times.ts';
import { velocityMetrics } from './velocity.ts';
import { weightMetrics } from './weight.ts';

export type { JumpMetricDefinition } from './metric.ts';

/** Every released metric of jumps, in the order they are listed to people. */
export const jumpMetricRegistry: Registry<JumpMetricDefinition> = registry('jump metric', [
  ...heightMetrics,
  ...dropMetrics,
  ...hopMetrics,
  ...timeMetrics,
  ...velocityMetrics,
  ...impulseMetrics,
  ...jumpForceMetrics,
  ...powerMetrics,
  ...landingMetrics,
  ...jumpSideMetrics,
  ...weightMetrics,
]);
