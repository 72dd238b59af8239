import type { CheckResult } from '../checks/check.ts';
import { analyseJumps } from '../jumps/analyse-jumps.ts';
import { methodReference } from '../methods/index.ts';
import type { Method } from '../methods/method.ts';
import type { Measured } from '../metrics/metric.ts';
import type { Reason } from '../outcome.ts';
import type { Notice } from '../recording/notice.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { contextsOf } from './contexts.ts';
import { emptyTrial } from './empty-trial.ts';
import { planOf } from './plan.ts';
import type { AnalysisRequest } from './request.ts';
import type { TrialResult } from './result.ts';
import { methodSpread } from './spread.ts';
import type { TrialContext } from './trial-context.ts';
import { verdictOf } from './verdict.ts';

/** Trials in order of time; a recording without an effort gives one trial with its reason. */
export interface Analysis {
  readonly trials: readonly TrialResult[];
  readonly notices: readonly Notice[];
}

/**
 * Analyses the effort or efforts of a recording: filter, events, onset, metrics, spread, checks, verdict. A jump test is handed over
 * to `analyseJumps` and gives results of the same shape.
 *
 * Pure: the same request gives the same result. In a test that sets its own baseline length the method is succeeded by a derived
 * one, which the result names.
 *
 * @returns one trial for `largest`; every effort, in order of time, for `all`; always at least one
 */
export function analyse(request: AnalysisRequest): Analysis {
  if (request.protocol.jump !== undefined) return analyseJumps(request);
  const { method, span, notices, contexts } = contextsOf(request);
  return {
    trials: contexts.ok ? contexts.value.map(judged) : [without(request, method, span, contexts.reason)],
    notices,
  };
}

/** A trial's result from its context. */
function judged(context: TrialContext): TrialResult {
  const { method, protocol, forces, events, onset, bodyWeight } = context;
  const plan = planOf(method);
  const metrics: Record<string, Measured> = {};
  for (const metric of plan.metrics) metrics[metric.id] = metric.compute(context);
  for (const id of plan.missingMetrics) metrics[id] = { reason: 'not-defined' };
  const checks: Record<string, CheckResult> = {};
  for (const { check, limits } of plan.checks) checks[check.id] = check.judge(context, limits);
  return {
    test: protocol.id,
    testVersion: protocol.version,
    method: methodReference(method),
    sampleRate: forces.sampleRate,
    span: events.span,
    events,
    onset,
    bodyWeight,
    gravity: context.gravity,
    metrics,
    checks,
    spread: methodSpread(context, plan, metrics),
    onsets: context.onsets(),
    verdict: verdictOf(checks, onset, undefined),
  };
}

const without = (request: AnalysisRequest, method: Method, span: SampleSpan, reason: Reason): TrialResult =>
  emptyTrial(request, method, span, reason, Object.keys(method.metrics), planOf(method).checks);
