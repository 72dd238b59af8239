import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import type { Decision } from '../decisions/decision.ts';
import { type EffectiveDecisions, effectiveDecisions, type Standing, standingOf } from '../decisions/effective.ts';
import { decisionsOfTrial } from '../decisions/repository.ts';
import { type Person, toPerson } from '../records/people.ts';
import { type StoredRecording, toRecording } from '../records/recordings.ts';
import { currentResult, type StoredResult } from '../records/result.ts';
import { type Session, toSession } from '../records/session.ts';
import { type Trial, toTrial } from '../records/trial.ts';
import type { Scope } from '../scope.ts';
import { type StandingTrial, standingInSession } from './standing-in-session.ts';

/** Everything a screen shows of one trial. */
export interface TrialView {
  readonly trial: Trial;
  readonly session: Session;
  readonly person: Person;
  /** Absent in a session of results only. */
  readonly recording?: StoredRecording;
  /** All trials of the session in order, this one included. */
  readonly siblings: readonly StandingTrial[];
  readonly standing: Standing;
  /** Every decision, cancelled ones included, oldest first. */
  readonly decisions: readonly Decision[];
  readonly effective: EffectiveDecisions;
  /** Newest result under the method asked for, or of all. */
  readonly result?: StoredResult;
}

/** Reads a trial with all that surrounds it; undefined when there is no such trial. */
export async function viewTrial(scope: Scope, id: string, method: string | undefined): Promise<TrialView | undefined> {
  const { db } = scope;
  const row = await db.selectFrom('trials').selectAll().where('id', '=', id).executeTakeFirst();
  if (row === undefined) return undefined;
  const trial = toTrial(row);
  const session = toSession(
    await db.selectFrom('sessions').selectAll().where('id', '=', trial.session).executeTakeFirstOrThrow(),
  );
  const person = toPerson(
    await db.selectFrom('people').selectAll().where('id', '=', session.person).executeTakeFirstOrThrow(),
  );
  const recording = await readRecording(db, trial.recording);
  const decisions = await decisionsOfTrial(db, id);
  const effective = effectiveDecisions(decisions);
  const result = await currentResult(scope, id, method);
  return {
    trial,
    session,
    person,
    ...(recording === undefined ? {} : { recording }),
    siblings: await standingInSession(db, session, method),
    standing: standingOf(result?.document.verdict, effective),
    decisions,
    effective,
    ...(result === undefined ? {} : { result }),
  };
}

async function readRecording(db: Kysely<Database>, sha256: string | undefined): Promise<StoredRecording | undefined> {
  if (sha256 === undefined) return undefined;
  const row = await db.selectFrom('recordings').selectAll().where('sha256', '=', sha256).executeTakeFirst();
  return row && toRecording(row);
}
