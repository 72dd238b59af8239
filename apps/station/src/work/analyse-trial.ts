import {
  applyProtocol,
  type Forces,
  type Method,
  methodOfProtocol,
  methodReference,
  type Protocol,
  protocolRegistry,
  type TrialResult,
} from '@sthene/core';
import type { EffectiveDecisions, Session, Trial } from '@sthene/store';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';
import type { OriginFacts } from '../live/rig/keep-trial.ts';
import { problems } from '../server/problem-error.ts';
import { analysisOf } from './analysis-of.ts';
import { documentOf } from './protocols.ts';

export { versionsOf } from './analysis-of.ts';

/** Judges one stored trial with a method and the decisions in force; a live one with what it was judged with live. */
export async function analyseTrial(
  lab: OpenLab,
  forces: Forces,
  trial: Pick<Trial, 'span' | 'cue'>,
  session: Pick<Session, 'protocol' | 'bodyWeight' | 'gravity'>,
  asked: Method,
  effective?: EffectiveDecisions,
  live?: Pick<OriginFacts, 'bodyWeight' | 'unloaded'>,
  { keepsMethods = true }: { readonly keepsMethods?: boolean } = {},
): Promise<TrialResult> {
  const { protocol, method } = await asRunBy(lab, session, asked, keepsMethods);
  const hand = effective?.onsetByHand;
  return analysisOf(forces, {
    ...{ trial, session, protocol, method },
    ...(live === undefined ? {} : { live }),
    ...(hand === undefined
      ? {}
      : { hand: { index: hand.payload.index, by: await lab.nameOf(hand.by), reason: hand.reason } }),
  });
}

/**
 * Test and method as the session's protocol version has them; those of the test alone where no version is known. A method derived
 * for the protocol is kept, so that results may refer to it.
 */
export async function asRunBy(
  lab: OpenLab,
  { protocol: { id, sha256 } }: Pick<Session, 'protocol'>,
  asked: Method,
  keepsMethods: boolean,
): Promise<{ protocol: Protocol; method: Method }> {
  if (sha256 === undefined) {
    const protocol = protocolRegistry.get(id);
    if (protocol === undefined) throw problems.notFound('test');
    return { protocol, method: asked };
  }
  const document = await documentOf(lab, sha256);
  const method = methodOfProtocol(asked, document);
  if (method !== asked && keepsMethods) await keepOnce(lab, method);
  return { protocol: applyProtocol(document).test, method };
}

const kept = new WeakMap<OpenLab, Set<string>>();

/** Going through an archive comes by the same few methods again and again. */
async function keepOnce(lab: OpenLab, method: Method): Promise<void> {
  const known = kept.get(lab) ?? new Set();
  kept.set(lab, known);
  const { sha256 } = methodReference(method);
  if (known.has(sha256)) return;
  await lab.store.methods.add(sha256, method, stationActor);
  known.add(sha256);
}
