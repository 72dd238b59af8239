import type { JumpKind } from '../protocols/protocol.ts';
import type { Notice } from '../recording/notice.ts';
import { type JumpCheckDefinition, jumpCheckRegistry } from './checks/index.ts';
import { flightRules } from './flight.ts';
import type { JumpMethod } from './method/jump-method.ts';
import { type JumpMetricDefinition, jumpMetricRegistry } from './metrics/index.ts';
import { jumpOnsetRules } from './onset.ts';

/** What a jump method asks for in jumps of one kind, looked up once. */
export interface JumpPlan {
  readonly metrics: readonly JumpMetricDefinition[];
  readonly checks: readonly {
    readonly check: JumpCheckDefinition;
    readonly limits: Readonly<Record<string, number>>;
  }[];
  /** Metrics of the method that this version of the program does not have: they get the reason `not-defined`. */
  readonly missingMetrics: readonly string[];
  readonly notices: readonly Notice[];
}

const plans = new WeakMap<JumpMethod, Map<JumpKind, JumpPlan>>();

/** The plan of a method for one kind of jump; methods never change, so it is made once. */
export function jumpPlanOf(method: JumpMethod, kind: JumpKind): JumpPlan {
  const known = plans.get(method) ?? new Map<JumpKind, JumpPlan>();
  plans.set(method, known);
  let plan = known.get(kind);
  if (plan === undefined) {
    plan = makePlan(method, kind);
    known.set(kind, plan);
  }
  return plan;
}

function makePlan(method: JumpMethod, kind: JumpKind): JumpPlan {
  const notices: Notice[] = [];
  const notice = (code: string, what: string, version: number): void => {
    const message = `The method asks for version ${version} of the ${what}, which this program does not have.`;
    notices.push({ code, message });
  };
  if (jumpOnsetRules.get(method.onset.rule)?.version !== method.onset.version)
    notice('onset-rule-not-known', `onset rule "${method.onset.rule}"`, method.onset.version);
  if (flightRules[method.flight.rule]?.version !== method.flight.version)
    notice('flight-rule-not-known', `rule of take-off "${method.flight.rule}"`, method.flight.version);
  const { drop } = method;
  if (drop !== undefined && (drop.rule !== 'stand-on-box' || drop.version !== 1))
    notice('drop-rule-not-known', `rule of the drop "${drop.rule}"`, drop.version);
  const metrics: JumpMetricDefinition[] = [];
  const missingMetrics: string[] = [];
  for (const [id, version] of Object.entries(method.metrics)) {
    const definition = jumpMetricRegistry.get(id);
    if (definition?.version !== version) {
      missingMetrics.push(id);
      notice('metric-not-known', `metric "${id}"`, version);
    } else if (definition.kinds.includes(kind)) metrics.push(definition);
  }
  const checks: { check: JumpCheckDefinition; limits: Readonly<Record<string, number>> }[] = [];
  for (const [id, choice] of Object.entries(method.checks)) {
    const check = jumpCheckRegistry.get(id);
    if (check?.version !== choice.version) notice('check-not-known', `check "${id}"`, choice.version);
    else if (check.kinds.includes(kind)) checks.push({ check, limits: { ...check.defaultLimits, ...choice.limits } });
  }
  return { metrics, checks, missingMetrics, notices };
}
