import {
  analyse,
  checkRegistry,
  type Forces,
  type Method,
  metricRegistry,
  protocolRegistry,
  type TrialResult,
} from '@sthene/core';
import type { EffectiveDecisions, ResultVersions, Session, Trial } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { problems } from '../server/problem-error.ts';

/** Judges one stored trial with a method and the decisions in force. */
export async function analyseTrial(
  lab: OpenLab,
  forces: Forces,
  trial: Pick<Trial, 'span' | 'cue'>,
  session: Pick<Session, 'protocol' | 'bodyWeight' | 'gravity'>,
  method: Method,
  effective?: EffectiveDecisions,
): Promise<TrialResult> {
  const protocol = protocolRegistry.get(session.protocol.id);
  if (protocol === undefined) throw problems.notFound('test');
  const hand = effective?.onsetByHand;
  const { trials } = analyse({
    forces,
    protocol,
    method,
    gravity: session.gravity,
    efforts: 'largest',
    ...(session.bodyWeight === undefined
      ? {}
      : { bodyWeight: { value: session.bodyWeight.value, from: session.bodyWeight.from } }),
    ...(trial.span === undefined ? {} : { span: trial.span }),
    ...(trial.cue === undefined ? {} : { cue: trial.cue }),
    ...(hand === undefined
      ? {}
      : { onsetByHand: { index: hand.payload.index, by: await lab.nameOf(hand.by), reason: hand.reason } }),
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
