import type { Analysis } from '../analysis/analyse.ts';
import { emptyTrial } from '../analysis/empty-trial.ts';
import type { AnalysisRequest } from '../analysis/request.ts';
import type { TrialResult } from '../analysis/result.ts';
import { verdictOf } from '../analysis/verdict.ts';
import { wholeSpan } from '../analysis/whole-span.ts';
import type { CheckResult } from '../checks/check.ts';
import { methodReference } from '../methods/hash.ts';
import type { Measured } from '../metrics/metric.ts';
import type { JumpTest } from '../protocols/protocol.ts';
import type { Notice } from '../recording/notice.ts';
import type { RuleChoice } from './build-context.ts';
import { flightRules } from './flight.ts';
import { foundJumps, type JudgedJump } from './found-jumps.ts';
import type { JumpContext } from './jump-context.ts';
import { fromStanding } from './kinds.ts';
import { defaultJumpMethod } from './method/built-in.ts';
import { jumpOnsetRules } from './onset.ts';
import { jumpPlanOf } from './plan.ts';
import { jumpSpread, type Variant } from './spread.ts';

/**
 * Analyses the jump or jumps of a recording: splitting, flight, quiet second, onset, motion, phases, metrics, spread, checks, verdict.
 * `analyse` hands over to it when the test is a jump test.
 *
 * Pure: the same request gives the same result. A jump judged again in the span its result names gives the same numbers.
 *
 * @returns one trial for `largest`, the jump with the longest flight; every jump, in order of time, for `all`; always at least one
 */
export function analyseJumps(request: AnalysisRequest): Analysis {
  const { kind } = request.protocol.jump as JumpTest;
  const method = request.jumpMethod ?? defaultJumpMethod;
  const plan = jumpPlanOf(method, kind);
  const found = foundJumps(request);
  const notices: Notice[] = [...plan.notices, ...found.notices];
  if (found.jumps.ok) return { trials: found.jumps.value.map((one) => resultOf(request, one)), notices };
  const ids = [...plan.metrics.map(({ id }) => id), ...plan.missingMetrics];
  const span = wholeSpan(request);
  return { trials: [emptyTrial(request, method, span, found.jumps.reason, ids, plan.checks)], notices };
}

function resultOf(request: AnalysisRequest, { jump, found, method, own, under }: JudgedJump): TrialResult {
  const { kind } = jump;
  const plan = jumpPlanOf(method, kind);
  const metrics: Record<string, Measured> = {};
  for (const metric of plan.metrics) metrics[metric.id] = metric.compute(jump);
  for (const id of plan.missingMetrics) metrics[id] = { reason: 'not-defined' };
  const checks: Record<string, CheckResult> = {};
  for (const { check, limits } of plan.checks) checks[check.id] = check.judge(jump, limits);
  const variants = variantsOf(own, kind, under);
  const byRule = new Map(variants.map(({ id, jump: one }) => [id, one?.onset]));
  return {
    test: request.protocol.id,
    testVersion: request.protocol.version,
    method: methodReference(method),
    sampleRate: jump.forces.sampleRate,
    span: found.span,
    jump: jump.events,
    onset: jump.onset,
    bodyWeight: jump.bodyWeight,
    gravity: request.gravity,
    metrics,
    checks,
    spread: jumpSpread(plan, variants, { jump, metrics }),
    onsets: Object.fromEntries(
      jumpOnsetRules.all.flatMap(({ id }) => {
        const onset = byRule.get(id);
        return onset === undefined ? [] : [[id, onset]];
      }),
    ),
    verdict: verdictOf(checks, jump.onset, undefined),
  };
}

/** The method's own rules, every other onset rule with its flight rule, and every other flight rule with its onset rule. */
function variantsOf(
  own: RuleChoice,
  kind: JumpTest['kind'],
  make: (choice: RuleChoice) => JumpContext | undefined,
): Variant[] {
  const standing = fromStanding.includes(kind);
  const onsets = standing ? jumpOnsetRules.all.map(({ id }) => id) : [];
  const flights = Object.keys(flightRules).filter((id) => id !== own.flight);
  const first: Variant[] = standing ? [] : [{ id: own.flight, jump: make(own) }];
  return [
    ...first,
    ...onsets.map((onset) => ({ id: onset, jump: make({ ...own, onset }) })),
    ...flights.map((flight) => ({ id: flight, jump: make({ ...own, flight }) })),
  ];
}
