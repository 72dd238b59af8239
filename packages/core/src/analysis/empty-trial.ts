import type { CheckDefinition, CheckResult } from '../checks/check.ts';
import { methodReference } from '../methods/hash.ts';
import type { Measured } from '../metrics/metric.ts';
import { lack, type Reason } from '../outcome.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { bodyWeightOf } from './context.ts';
import type { AnalysisRequest } from './request.ts';
import type { TrialResult } from './result.ts';
import { verdictOf } from './verdict.ts';

/** The trial of a recording in which nothing was found to measure: every value has the reason, no check is judged. */
export function emptyTrial(
  request: AnalysisRequest,
  method: Parameters<typeof methodReference>[0],
  span: SampleSpan,
  reason: Reason,
  metrics: readonly string[],
  planned: readonly { readonly check: Pick<CheckDefinition, 'id' | 'unit'> }[],
): TrialResult {
  const checks: Record<string, CheckResult> = {};
  for (const { check } of planned)
    checks[check.id] = { status: 'not-judged', unit: check.unit, notJudged: 'no-effort' };
  return {
    test: request.protocol.id,
    testVersion: request.protocol.version,
    method: methodReference(method),
    sampleRate: request.forces.sampleRate,
    span,
    reason,
    onset: lack(reason),
    bodyWeight: bodyWeightOf(request),
    gravity: request.gravity,
    metrics: Object.fromEntries(metrics.map((id): [string, Measured] => [id, { reason }])),
    checks,
    spread: {},
    onsets: {},
    verdict: verdictOf(checks, lack(reason), reason),
  };
}
