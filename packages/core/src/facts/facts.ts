import type { CheckDefinition } from '../checks/check.ts';
import { checkRegistry } from '../checks/index.ts';
import { jumpCheckRegistry } from '../jumps/checks/index.ts';
import { jumpMetricRegistry } from '../jumps/metrics/index.ts';
import { metricRegistry } from '../metrics/index.ts';
import type { MetricDefinition } from '../metrics/metric.ts';
import type { JumpKind } from '../protocols/protocol.ts';
import { protocolRegistry } from '../protocols/registry.ts';
import { type Registry, registry } from '../registry.ts';

/** What is known of a metric beside how it is computed. `kinds` says of which jumps it is; absent in isometric tests. */
export interface MetricFacts extends Omit<MetricDefinition, 'compute'> {
  readonly kinds?: readonly JumpKind[];
}

/** What is known of a check beside how it judges. `kinds` says which jumps it looks at; absent in isometric tests. */
export interface CheckFacts extends Omit<CheckDefinition, 'judge'> {
  readonly kinds?: readonly JumpKind[];
}

/** Facts of every metric of every test, by id: title, unit, formula, direction. Isometric ones first. */
export const metricFacts: Registry<MetricFacts> = registry<MetricFacts>('metric', [
  ...metricRegistry.all,
  ...jumpMetricRegistry.all,
]);

/** Facts of every check of every test, by id. Isometric ones first. */
export const checkFacts: Registry<CheckFacts> = registry<CheckFacts>('check', [
  ...checkRegistry.all,
  ...jumpCheckRegistry.all,
]);

/** Facts of the metrics a test gives, in the order they are listed; those of isometric tests for a test that is not known. */
export function metricFactsOf(test: string): readonly MetricFacts[] {
  const kind = protocolRegistry.get(test)?.jump?.kind;
  return kind === undefined ? metricRegistry.all : jumpMetricRegistry.all.filter(({ kinds }) => kinds.includes(kind));
}

/** Facts of the checks a test is judged by; those of isometric tests for a test that is not known. */
export function checkFactsOf(test: string): readonly CheckFacts[] {
  const kind = protocolRegistry.get(test)?.jump?.kind;
  return kind === undefined ? checkRegistry.all : jumpCheckRegistry.all.filter(({ kinds }) => kinds.includes(kind));
}

const headlines: Readonly<Record<JumpKind, string>> = {
  countermovement: 'jump_height',
  squat: 'jump_height',
  drop: 'reactive_strength_index',
  repeated: 'hop_rsi_best_five',
};

/** The metric by which efforts of a test are ranked and said in one number: peak force, or that of the kind of jump. */
export function headlineMetric(test: string): string {
  const kind = protocolRegistry.get(test)?.jump?.kind;
  return kind === undefined ? 'peak_force' : headlines[kind];
}
