import type { Verdict } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import { type EffectiveDecisions, effectiveDecisions } from '../decisions/effective.ts';
import { decisionsOfTrials } from '../decisions/repository.ts';
import { fromJson } from '../json.ts';
import { inForce } from '../records/result.ts';
import { type Session, toSession } from '../records/session.ts';
import { type Trial, toTrial } from '../records/trial.ts';

/** What a stored trial is judged from besides its file. */
export interface JudgingBasis {
  readonly trial: Trial;
  readonly session: Session;
  readonly effective: EffectiveDecisions;
  /** What a live trial was judged with besides its samples, as its origin keeps it. */
  readonly facts?: Readonly<Record<string, unknown>>;
  /** The result in force, without its document. */
  readonly before?: { readonly result: string; readonly verdict: Verdict };
  /** How the file of its recording is read. */
  readonly file?: { readonly format: string; readonly name: string };
}

/** Reads what many trials are judged from with one question for each table. */
export async function judgingBases(db: Kysely<Database>, ids: readonly string[]): Promise<JudgingBasis[]> {
  if (ids.length === 0) return [];
  const rows = await db.selectFrom('trials').selectAll().where('id', 'in', ids).execute();
  const trials = new Map(rows.map((row) => [row.id, toTrial(row)]));
  const sessions = await sessionsOf(db, [...new Set(rows.map(({ sessionId }) => sessionId))]);
  const hashes = rows.flatMap(({ recordingHash }) => recordingHash ?? []);
  const files = await filesOf(db, [...new Set(hashes)]);
  const decisions = await decisionsOfTrials(db, ids);
  const origins = await db
    .selectFrom('trialOrigins')
    .select(['trialId', 'facts'])
    .where('trialId', 'in', ids)
    .execute();
  const facts = new Map(origins.map((row) => [row.trialId, row.facts]));
  const before = await newestOf(db, ids);
  return ids.flatMap((id): JudgingBasis[] => {
    const trial = trials.get(id);
    const session = trial && sessions.get(trial.session);
    if (trial === undefined || session === undefined) return [];
    const live = facts.get(id);
    const result = before.get(id);
    const file = files.get(trial.recording ?? '');
    return [
      {
        trial,
        session,
        effective: effectiveDecisions(decisions.get(id) ?? []),
        ...(live === undefined ? {} : { facts: fromJson<Readonly<Record<string, unknown>>>(live) }),
        ...(result === undefined ? {} : { before: result }),
        ...(file === undefined ? {} : { file }),
      },
    ];
  });
}

async function sessionsOf(db: Kysely<Database>, ids: readonly string[]): Promise<Map<string, Session>> {
  if (ids.length === 0) return new Map();
  const rows = await db.selectFrom('sessions').selectAll().where('id', 'in', ids).execute();
  return new Map(rows.map((row) => [row.id, toSession(row)]));
}

async function filesOf(db: Kysely<Database>, hashes: readonly string[]) {
  if (hashes.length === 0) return new Map<string, { format: string; name: string }>();
  const rows = await db
    .selectFrom('recordings')
    .select(['sha256', 'formatId', 'fileName'])
    .where('sha256', 'in', hashes)
    .execute();
  return new Map(rows.map(({ sha256, formatId, fileName }) => [sha256, { format: formatId, name: fileName }]));
}

/** The newest result in force of each trial; read from an index, never from the rows, which hold the documents. */
async function newestOf(db: Kysely<Database>, trials: readonly string[]) {
  const rows = await db
    .selectFrom('results')
    .select(['trialId', 'id', 'verdict'])
    .where('trialId', 'in', trials)
    .where(inForce('results.runId'))
    .orderBy('trialId')
    .orderBy('sequence')
    .execute();
  return new Map(rows.map(({ trialId, id, verdict }) => [trialId, { result: id, verdict: verdict as Verdict }]));
}
