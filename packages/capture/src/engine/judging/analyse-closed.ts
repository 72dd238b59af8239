import {
  type AnalysisRequest,
  analyse,
  type Forces,
  type JumpMethod,
  type Method,
  type Protocol,
  type TrialResult,
} from '@sthene/core';
import type { ClosedTrial } from '../trial.ts';

/** What a closed trial keeps of its analysis; the rest are the recorded samples and the method. */
export type TrialFacts = Pick<ClosedTrial, 'span' | 'cue' | 'bodyWeight' | 'unloaded' | 'jumpSetup'>;

/**
 * Analyses a trial from the forces of its recorded span: the same code for the live verdict, the review after step-off, and stored
 * samples, so that all agree to the last digit.
 *
 * @param forces from `forcesOfSpan` over `facts.span`; its first sample is sample 0
 */
export function analyseClosed(
  forces: Forces,
  facts: TrialFacts,
  protocol: Protocol,
  method: Method,
  gravity: number,
  jumpMethod?: JumpMethod,
): TrialResult {
  const { span, cue, unloaded, jumpSetup } = facts;
  // Weighed without the load, so it is not the weight of a loaded jump.
  const bodyWeight = protocol.jump?.loaded === true ? undefined : facts.bodyWeight;
  const request: AnalysisRequest = {
    forces,
    protocol,
    method,
    gravity,
    efforts: 'largest',
    ...(bodyWeight === undefined ? {} : { bodyWeight: { value: bodyWeight, from: 'weighing' } }),
    ...(cue === undefined ? {} : { cue: cue - span.start }),
    ...(unloaded === undefined ? {} : { unloaded }),
    ...(jumpSetup === undefined ? {} : { jumpSetup }),
    ...(jumpMethod === undefined ? {} : { jumpMethod }),
  };
  return analyse(request).trials[0] as TrialResult;
}
