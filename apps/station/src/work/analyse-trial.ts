import {
  type AnalysisRequest,
  type AnyMethod,
  applyProtocol,
  defaultJumpMethod,
  defaultMethod,
  type Forces,
  isJumpMethod,
  type JumpMethod,
  jumpMethodOfProtocol,
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
import { largestOf, requestFor } from './analysis-of.ts';
import { documentOf } from './protocols.ts';

export { jumpSetupOf, versionsOf } from './analysis-of.ts';

/**
 * Judges one stored trial with a method and the decisions in force; a live one with what it was judged with live. A jump is judged by a
 * jump method: the one asked for where it is one, else the built-in one.
 */
export const analyseTrial = async (...given: Parameters<typeof requestOf>): Promise<TrialResult> =>
  largestOf(await requestOf(...given));

/** What a stored trial is analysed with. */
export async function requestOf(
  lab: OpenLab,
  forces: Forces,
  trial: Pick<Trial, 'span' | 'cue'>,
  session: Pick<Session, 'protocol' | 'bodyWeight' | 'gravity'> & Partial<Pick<Session, 'setup'>>,
  asked: AnyMethod,
  effective?: EffectiveDecisions,
  live?: Pick<OriginFacts, 'bodyWeight' | 'unloaded' | 'jumpSetup'>,
  { keepsMethods = true }: { readonly keepsMethods?: boolean } = {},
): Promise<AnalysisRequest> {
  const hand = effective?.onsetByHand;
  return requestFor(forces, {
    ...{ trial, session },
    ...(await asRunBy(lab, session, asked, keepsMethods)),
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
  asked: AnyMethod,
  keepsMethods: boolean,
): Promise<{ protocol: Protocol; method: Method; jumpMethod: JumpMethod }> {
  const recipes = isJumpMethod(asked)
    ? { method: defaultMethod, jumpMethod: asked }
    : { method: asked, jumpMethod: defaultJumpMethod };
  if (sha256 === undefined) {
    const protocol = protocolRegistry.get(id);
    if (protocol === undefined) throw problems.notFound('test');
    if (protocol.jump !== undefined && keepsMethods) await keepOnce(lab, recipes.jumpMethod);
    return { protocol, ...recipes };
  }
  const document = await documentOf(lab, sha256);
  const protocol = applyProtocol(document).test;
  if (protocol.jump !== undefined) {
    const jumpMethod = jumpMethodOfProtocol(recipes.jumpMethod, document);
    if (keepsMethods) await keepOnce(lab, jumpMethod);
    return { protocol, method: recipes.method, jumpMethod };
  }
  const method = methodOfProtocol(recipes.method, document);
  if (method !== asked && keepsMethods) await keepOnce(lab, method);
  return { protocol, method, jumpMethod: recipes.jumpMethod };
}

const kept = new WeakMap<OpenLab, Set<string>>();

/** Going through an archive comes by the same few methods again and again. */
async function keepOnce(lab: OpenLab, method: AnyMethod): Promise<void> {
  const known = kept.get(lab) ?? new Set();
  kept.set(lab, known);
  const { sha256 } = methodReference(method);
  if (known.has(sha256)) return;
  await lab.store.methods.add(sha256, method, stationActor);
  known.add(sha256);
}
