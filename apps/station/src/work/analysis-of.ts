import {
  type AnalysisRequest,
  analyse,
  checkFacts,
  type Forces,
  type JumpMethod,
  type Method,
  metricFacts,
  type Protocol,
  type TrialResult,
} from '@sthene/core';
import type { ResultVersions, Session, Trial } from '@sthene/store';
import type { OriginFacts } from '../live/rig/keep-trial.ts';

/** What a trial is judged with besides its forces; pure data, so that another thread may do it. */
export interface Judging {
  readonly trial: Pick<Trial, 'span' | 'cue'>;
  readonly session: Pick<Session, 'bodyWeight' | 'gravity'> & Partial<Pick<Session, 'setup'>>;
  /** Test and method as the session's protocol has them. */
  readonly protocol: Protocol;
  readonly method: Method;
  /** What a jump is judged by, in place of the method; absent: the built-in one. */
  readonly jumpMethod?: JumpMethod;
  /** What was known live. */
  readonly live?: Pick<OriginFacts, 'bodyWeight' | 'unloaded' | 'jumpSetup'>;
  /** The onset a person placed, with the name of the person. */
  readonly hand?: { readonly index: number; readonly by: string; readonly reason: string };
}

/** What a stored trial is analysed with; a live one with what it was judged with live. */
export function requestFor(
  forces: Forces,
  { trial, session, protocol, method, jumpMethod, live, hand }: Judging,
): AnalysisRequest {
  // Each turn of a live session is weighed anew; an effort keeps the weight of its own turn.
  const weighed =
    live?.bodyWeight === undefined ? session.bodyWeight : { value: live.bodyWeight, from: 'weighing' as const };
  // Live, people are weighed without the load: that is not the weight of a loaded jump.
  const weight = live !== undefined && protocol.jump?.loaded === true ? undefined : weighed;
  return {
    forces,
    protocol,
    method,
    ...(protocol.jump === undefined ? {} : { jumpSetup: live?.jumpSetup ?? jumpSetupOf(session.setup) }),
    ...(protocol.jump === undefined || jumpMethod === undefined ? {} : { jumpMethod }),
    gravity: session.gravity,
    efforts: 'largest',
    ...(weight === undefined ? {} : { bodyWeight: { value: weight.value, from: weight.from } }),
    ...(live?.unloaded === undefined ? {} : { unloaded: live.unloaded }),
    ...(trial.span === undefined ? {} : { span: trial.span }),
    ...(trial.cue === undefined ? {} : { cue: trial.cue }),
    ...(hand === undefined ? {} : { onsetByHand: hand }),
  };
}

/** The one trial of a request for the largest effort. */
export function largestOf(request: AnalysisRequest): TrialResult {
  const [result] = analyse(request).trials;
  if (result === undefined) throw new Error('an analysis of the largest effort gave no trial');
  return result;
}

/** Judges one trial. */
export const analysisOf = (forces: Forces, judging: Judging): TrialResult => largestOf(requestFor(forces, judging));

/** What the analysis of a jump takes from the setup: the height of the box in m and the load in kg. */
export function jumpSetupOf(setup: Session['setup'] = {}): NonNullable<AnalysisRequest['jumpSetup']> {
  const { box_height: box, load } = setup;
  return {
    ...(typeof box === 'number' ? { boxHeight: box / 100 } : {}),
    ...(typeof load === 'number' ? { load } : {}),
  };
}

/** The versions that make a result, kept with it. */
export function versionsOf(result: TrialResult): ResultVersions {
  const of = (ids: readonly string[], known: (id: string) => { readonly version: number } | undefined) =>
    Object.fromEntries(ids.map((id) => [id, known(id)?.version ?? 0]));
  return {
    metrics: of(Object.keys(result.metrics), (id) => metricFacts.get(id)),
    checks: of(Object.keys(result.checks), (id) => checkFacts.get(id)),
  };
}
