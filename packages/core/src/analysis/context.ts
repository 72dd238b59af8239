import type { Method } from '../methods/method.ts';
import { automaticOnsetRules, type OnsetInput, onsetRegistry, placeOnset } from '../onset/index.ts';
import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import type { EffortSearch } from './effort-search.ts';
import type { Onset } from './events.ts';
import type { Effort } from './find-effort.ts';
import type { AnalysisRequest } from './request.ts';
import type { BodyWeight, TrialContext } from './trial-context.ts';

/**
 * Builds what metrics and checks look at.
 *
 * Onsets under the automatic rules are computed when first asked for, each once; the method's own is one of them.
 *
 * @param forces after the method's filter
 * @param hand a person's onset, where there is one for this effort
 */
export function trialContext(
  request: AnalysisRequest,
  method: Method,
  forces: Forces,
  search: EffortSearch,
  effort: Effort,
  hand: AnalysisRequest['onsetByHand'],
): TrialContext {
  const bodyWeight = bodyWeightOf(request, effort);
  const { baseline } = effort;
  const find = baseline.ok
    ? onsetFinder({
        forces,
        span: effort.span,
        baseline: baseline.value,
        halfLevel: effort.halfLevel,
        halfRise: effort.halfRise,
        riseStart: effort.riseStart,
        end: effort.end,
        bodyWeight,
        weighted: search.weighted,
      })
    : () => baseline;
  const automatic = knowsRule(method) ? find(method.onset.rule) : lack('not-defined');
  const onset = hand
    ? placeOnset({
        forces,
        span: effort.span,
        end: effort.end,
        width: search.width,
        baseline,
        automatic,
        placed: hand,
      })
    : automatic;
  let all: Readonly<Record<string, Outcome<Onset>>> | undefined;
  const onsets = () => {
    all ??= Object.fromEntries(automaticOnsetRules.map(({ id }) => [id, find(id)]));
    return all;
  };
  return {
    forces,
    unfiltered: request.forces,
    protocol: request.protocol,
    method,
    events: { ...effort, onset },
    onset,
    bodyWeight,
    gravity: request.gravity,
    onsets,
    memo: new Map(),
    ...(request.cue === undefined ? {} : { cue: request.cue }),
    ...(request.unloaded === undefined ? {} : { unloaded: request.unloaded }),
  };
}

/** The same trial under another onset. Only onset-dependent metrics may differ. */
export const withOnset = (context: TrialContext, onset: Outcome<Onset>): TrialContext => ({
  ...context,
  onset,
  events: { ...context.events, onset },
});

/** True when the method's onset rule is known in that version and reads the curve alone. */
export function knowsRule(method: Method): boolean {
  const rule = onsetRegistry.get(method.onset.rule);
  return rule?.automatic === true && rule.version === method.onset.version;
}

/** W: weighed, given, or the baseline mean; `needs-body-weight` without one in the test, `no-body-weight` when unknown. */
export function bodyWeightOf(request: AnalysisRequest, effort?: Effort): Outcome<BodyWeight> {
  if (request.protocol.load === 'none') return lack('needs-body-weight');
  const { unit } = request.forces;
  if (request.bodyWeight) return have({ ...request.bodyWeight, unit });
  return effort?.baseline.ok
    ? have({ value: effort.baseline.value.mean, unit, from: 'baseline' })
    : lack('no-body-weight');
}

function onsetFinder(input: OnsetInput): (rule: string) => Outcome<Onset> {
  const known = new Map<string, Outcome<Onset>>();
  return (id) => {
    let outcome = known.get(id);
    if (outcome === undefined) {
      const rule = onsetRegistry.get(id);
      outcome = rule?.automatic ? rule.find(input) : lack('not-defined');
      known.set(id, outcome);
    }
    return outcome;
  };
}
