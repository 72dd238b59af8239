import { methodFor } from '../methods/index.ts';
import type { Method } from '../methods/method.ts';
import { have, type Outcome, type Reason } from '../outcome.ts';
import type { Notice } from '../recording/notice.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { allEfforts } from './all-efforts.ts';
import { knowsRule, trialContext } from './context.ts';
import { effortSearch } from './effort-search.ts';
import { filteredForces, filterNotUsable } from './filtered.ts';
import { findEffort } from './find-effort.ts';
import { planOf } from './plan.ts';
import type { AnalysisRequest } from './request.ts';
import type { TrialContext } from './trial-context.ts';
import { wholeSpan } from './whole-span.ts';

/** The efforts of a request, found but not yet measured. */
export interface Prepared {
  /** As the request's protocol has it. */
  readonly method: Method;
  readonly span: SampleSpan;
  readonly notices: readonly Notice[];
  /** One for each effort, in order of time; or why there is none. */
  readonly contexts: Outcome<readonly TrialContext[]>;
}

/**
 * Filter, events and onset of a request: what metrics and checks look at, and what the uncertainty of a metric is computed from.
 *
 * @returns contexts with the reasons of `findEffort`, or `not-defined` where the method's filter does not fit the rate
 */
export function contextsOf(request: AnalysisRequest): Prepared {
  const method = methodFor(request.method, request.protocol);
  const notices: Notice[] = [...planOf(method).notices];
  if (!knowsRule(method)) {
    notices.push({
      code: 'onset-rule-not-known',
      message: `The method asks for version ${method.onset.version} of the onset rule "${method.onset.rule}", which this program does not have.`,
    });
  }
  const span = wholeSpan(request);
  const without = (reason: Reason): Prepared => ({ method, span, notices, contexts: { ok: false, reason } });
  const filtered = filteredForces(request.forces, method.filter);
  if (!filtered.ok) {
    notices.push(filterNotUsable(request.forces, method.filter));
    return without(filtered.reason);
  }
  const forces = filtered.value;
  const search = effortSearch(forces, span, request.protocol, method, request.bodyWeight?.value);
  const first = findEffort(search);
  if (!first.ok) return without(first.reason);
  const efforts = request.efforts === 'all' ? allEfforts(search, first.value) : [first.value];
  const hand = efforts.length === 1 ? request.onsetByHand : undefined;
  if (request.onsetByHand && !hand) {
    notices.push({
      code: 'onset-by-hand-ignored',
      message: `The onset placed by hand is not used: there are ${efforts.length} efforts, and it belongs to one.`,
    });
  }
  const contexts = efforts.map((effort) => trialContext(request, method, forces, search, effort, hand));
  return { method, span, notices, contexts: have(contexts) };
}
