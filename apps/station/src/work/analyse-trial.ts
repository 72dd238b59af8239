import {
  type AnalysisRequest,
  type AnyMethod,
  analyse,
  applyProtocol,
  checkFacts,
  defaultJumpMethod,
  defaultMethod,
  type Forces,
  isJumpMethod,
  type JumpMethod,
  jumpMethodOfProtocol,
  type Method,
  methodOfProtocol,
  methodReference,
  metricFacts,
  type Protocol,
  protocolRegistry,
  type TrialResult,
} from '@sthene/core';
import type { EffectiveDecisions, ResultVersions, Session, Trial } from '@sthene/store';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';
import type { OriginFacts } from '../live/rig/keep-trial.ts';
import { problems } from '../server/problem-error.ts';
import { documentOf } from './protocols.ts';

/**
 * Judges one stored trial with a method and the decisions in force; a live one with what it was judged with live. A jump is judged by a
 * jump method: the one asked for where it is one, else the built-in one.
 */
export async function analyseTrial(
  lab: OpenLab,
  forces: Forces,
  trial: Pick<Trial, 'span' | 'cue'>,
  session: Pick<Session, 'protocol' | 'bodyWeight' | 'gravity'> & Partial<Pick<Session, 'setup'>>,
  asked: AnyMethod,
  effective?: EffectiveDecisions,
  live?: Pick<OriginFacts, 'bodyWeight' | 'unloaded' | 'jumpSetup'>,
  { keepsMethods = true }: { readonly keepsMethods?: boolean } = {},
): Promise<TrialResult> {
  const { protocol, method, jumpMethod } = await asRunBy(lab, session, asked, keepsMethods);
  const hand = effective?.onsetByHand;
  // Each turn of a live session is weighed anew; an effort keeps the weight of its own turn.
  const weighed =
    live?.bodyWeight === undefined ? session.bodyWeight : { value: live.bodyWeight, from: 'weighing' as const };
  // Live, people are weighed without the load: that is not the weight of a loaded jump.
  const weight = live !== undefined && protocol.jump?.loaded === true ? undefined : weighed;
  const { trials } = analyse({
    forces,
    protocol,
    method,
    ...(protocol.jump === undefined ? {} : { jumpMethod, jumpSetup: live?.jumpSetup ?? jumpSetupOf(session.setup) }),
    gravity: session.gravity,
    efforts: 'largest',
    ...(weight === undefined ? {} : { bodyWeight: { value: weight.value, from: weight.from } }),
    ...(live?.unloaded === undefined ? {} : { unloaded: live.unloaded }),
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

/**
 * Test and method as the session's protocol version has them; those of the test alone where no version is known. A method derived
 * for the protocol is kept, so that results may refer to it.
 */
async function asRunBy(
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
