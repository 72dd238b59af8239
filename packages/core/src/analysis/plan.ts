import { type CheckDefinition, checkRegistry } from '../checks/index.ts';
import type { Method } from '../methods/method.ts';
import { type MetricDefinition, metricRegistry } from '../metrics/index.ts';
import type { Notice } from '../recording/notice.ts';

/** A method's metrics and checks, looked up once. */
export interface Plan {
  readonly metrics: readonly MetricDefinition[];
  readonly onsetDependent: readonly MetricDefinition[];
  readonly checks: readonly { readonly check: CheckDefinition; readonly limits: Readonly<Record<string, number>> }[];
  /** Metrics the method names that this version of the program does not have: they get the reason `not-defined`. */
  readonly missingMetrics: readonly string[];
  readonly notices: readonly Notice[];
}

const plans = new WeakMap<Method, Plan>();

/** The plan of a method; methods never change, so it is made once for each. */
export function planOf(method: Method): Plan {
  let plan = plans.get(method);
  if (plan === undefined) {
    plan = makePlan(method);
    plans.set(method, plan);
  }
  return plan;
}

function makePlan(method: Method): Plan {
  const notices: Notice[] = [];
  const metrics: MetricDefinition[] = [];
  const missingMetrics: string[] = [];
  for (const [id, version] of Object.entries(method.metrics)) {
    const definition = metricRegistry.get(id);
    if (definition?.version === version) metrics.push(definition);
    else {
      missingMetrics.push(id);
      notices.push({
        code: 'metric-not-known',
        message: `The method asks for version ${version} of the metric "${id}", which this program does not have.`,
      });
    }
  }
  const checks: { check: CheckDefinition; limits: Readonly<Record<string, number>> }[] = [];
  for (const [id, choice] of Object.entries(method.checks)) {
    const check = checkRegistry.get(id);
    if (check?.version === choice.version) {
      checks.push({ check, limits: { ...check.defaultLimits, ...choice.limits } });
    } else {
      notices.push({
        code: 'check-not-known',
        message: `The method asks for version ${choice.version} of the check "${id}", which this program does not have.`,
      });
    }
  }
  return {
    metrics,
    onsetDependent: metrics.filter((metric) => metric.dependsOnOnset),
    checks,
    missingMetrics,
    notices,
  };
}
