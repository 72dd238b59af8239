import {
  analyse,
  checkRegistry,
  type Forces,
  type Method,
  metricRegistry,
  type Protocol,
  type TrialResult,
} from '@sthene/core';
import type { ResultVersions, Session, Trial } from '@sthene/store';
import type { OriginFacts } from '../live/rig/keep-trial.ts';

/** What a trial is judged with besides its forces; pure data, so that another thread may do it. */
export interface Judging {
  readonly trial: Pick<Trial, 'span' | 'cue'>;
  readonly session: Pick<Session, 'bodyWeight' | 'gravity'>;
  /** Test and method as the session's protocol has them. */
  readonly protocol: Protocol;
  readonly method: Method;
  /** What was known live. */
  readonly live?: Pick<OriginFacts, 'bodyWeight' | 'unloaded'>;
  /** The onset a person placed, with the name of the person. */
  readonly hand?: { readonly index: number; readonly by: string; readonly reason: string };
}

/** Judges one trial; a live one with what it was judged with live. */
export function analysisOf(forces: Forces, { trial, session, protocol, method, live, hand }: Judging): TrialResult {
  // Each turn of a live session is weighed anew; an effort keeps the weight of its own turn.
  const weight =
    live?.bodyWeight === undefined ? session.bodyWeight : { value: live.bodyWeight, from: 'weighing' as const };
  const { trials } = analyse({
    forces,
    protocol,
    method,
    gravity: session.gravity,
    efforts: 'largest',
    ...(weight === undefined ? {} : { bodyWeight: { value: weight.value, from: weight.from } }),
    ...(live?.unloaded === undefined ? {} : { unloaded: live.unloaded }),
    ...(trial.span === undefined ? {} : { span: trial.span }),
    ...(trial.cue === undefined ? {} : { cue: trial.cue }),
    ...(hand === undefined ? {} : { onsetByHand: hand }),
  });
  const [result] = trials;
  if (result === undefined) throw new Error('an analysis of the largest effort gave no trial');
  return result;
}

/** The versions that make a result, kept with it. */
export function versionsOf(result: TrialResult): ResultVersions {
  const of = (ids: readonly string[], known: (id: string) => { readonly version: number } | undefined) =>
    Object.fromEntries(ids.map((id) => [id, known(id)?.version ?? 0]));
  return {
    metrics: of(Object.keys(result.metrics), (id) => metricRegistry.get(id)),
    checks: of(Object.keys(result.checks), (id) => checkRegistry.get(id)),
  };
}
