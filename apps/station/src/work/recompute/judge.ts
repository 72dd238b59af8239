import type { Method } from '@sthene/core';
import {
  type EffectiveDecisions,
  effectiveDecisions,
  type Session,
  type StoredResult,
  type Trial,
  type TrialOutcome,
} from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { analyseTrial, versionsOf } from '../analyse-trial.ts';
import { readForces } from '../forces-of-trial.ts';
import { liveFactsOf } from '../live-facts.ts';
import type { readRecording } from '../read-recording.ts';
import { faultOfTrial } from './judging/fault.ts';

/** What a trial is judged from. */
export interface TrialBasis {
  readonly trial: Trial;
  readonly session: Session;
  readonly effective: EffectiveDecisions;
  /** The result in force; absent where there is none. */
  readonly result?: StoredResult;
}

/** A trial judged by another method, and what was in force when it was. */
export interface Judged {
  readonly view: TrialBasis;
  readonly made: TrialOutcome['made'];
}

/**
 * Judges a stored trial by a method: from its original file, with the decisions in force and what was known live, as its session's
 * protocol has it. Keeps no result.
 *
 * @param keepsMethods whether a method derived for the protocol is kept, so that a result may refer to it
 * @returns the result, or why this trial has none: its file or its numbers. A fault of the database is thrown.
 */
export async function judgeTrial(
  lab: OpenLab,
  id: string,
  method: Method,
  read: typeof readRecording,
  { keepsMethods = true }: { readonly keepsMethods?: boolean } = {},
): Promise<Judged> {
  const view = await basisOf(lab, id);
  try {
    const live = await liveFactsOf(lab, id);
    const { forces } = await readForces(lab, view.trial, view.session, live, read);
    const how = { keepsMethods };
    const document = await analyseTrial(lab, forces, view.trial, view.session, method, view.effective, live, how);
    return { view, made: { document, versions: versionsOf(document) } };
  } catch (error) {
    return { view, made: faultOfTrial(error) };
  }
}

async function basisOf({ store }: OpenLab, id: string): Promise<TrialBasis> {
  const trial = await store.trials.get(id);
  const session = trial && (await store.sessions.get(trial.session));
  if (trial === undefined || session === undefined) throw problems.notFound('trial');
  const effective = effectiveDecisions(await store.decisions.ofTrial(id));
  const result = await store.results.current(id);
  return { trial, session, effective, ...(result === undefined ? {} : { result }) };
}
