import type { TrialContext } from '../src/analysis/trial-context.ts';
import type { CheckResult } from '../src/checks/check.ts';
import { checkRegistry } from '../src/checks/index.ts';
import { metricRegistry } from '../src/metrics/index.ts';
import type { Measured } from '../src/metrics/metric.ts';

/** Computes a metric by id. */
export function measure(id: string, trial: TrialContext): Measured {
  const metric = metricRegistry.get(id);
  if (!metric) throw new Error(`There is no metric ${id}.`);
  return metric.compute(trial);
}

/** The value of a metric; throws with its reason when there is none. */
export function metricValue(id: string, trial: TrialContext): number {
  const measured = measure(id, trial);
  if ('reason' in measured) throw new Error(`${id}: ${measured.reason}`);
  return measured.value;
}

/** The reason of a metric that has no value, or undefined. */
export function reasonOf(id: string, trial: TrialContext): string | undefined {
  const measured = measure(id, trial);
  return 'reason' in measured ? measured.reason : undefined;
}

/** Judges a check by id with its default limits, or others. */
export function judge(id: string, trial: TrialContext, limits?: Readonly<Record<string, number>>): CheckResult {
  const check = checkRegistry.get(id);
  if (!check) throw new Error(`There is no check ${id}.`);
  return check.judge(trial, limits ?? check.defaultLimits);
}
