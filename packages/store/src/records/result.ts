import type { TrialResult, UtcInstant } from '@sthene/core';
import { sql } from 'kysely';
import type { ResultRow } from '../database.ts';
import { fromJson } from '../json.ts';
import type { Scope } from '../scope.ts';

/** Versions that made a result, beside its method: id to version. */
export interface ResultVersions {
  readonly metrics: Readonly<Record<string, number>>;
  readonly checks: Readonly<Record<string, number>>;
}

/** A result as it was computed. Never changed; a newer one is appended. */
export interface StoredResult {
  readonly id: string;
  /** Grows with each record appended to the store; the newest of a trial and method is current. */
  readonly sequence: number;
  readonly trial: string;
  /** Method hash. */
  readonly method: string;
  readonly recording?: string;
  readonly application: string;
  readonly versions: ResultVersions;
  readonly document: TrialResult;
  readonly computedAt: UtcInstant;
  /** The recomputation that made it; in force only once that was adopted. */
  readonly run?: string;
}

/**
 * Narrows results to those in force: all but the candidates of recomputations that were not adopted. Of these the newest of a trial
 * stands.
 *
 * @param run column of the run, as the query names it
 */
export const inForce = <C extends string>(run: C) =>
  sql<boolean>`(${sql.ref(run)} is null or exists (
    select 1 from recomputations as run where run.id = ${sql.ref(run)} and run.state = 'adopted'))`;

/** Newest result in force of a trial, under one method or of all. */
export async function currentResult(
  { db, documents }: Pick<Scope, 'db' | 'documents'>,
  trial: string,
  method: string | undefined,
): Promise<StoredResult | undefined> {
  let query = db
    .selectFrom('results')
    .select(shortColumns)
    .where('trialId', '=', trial)
    .where(inForce('results.runId'))
    .orderBy('sequence', 'desc')
    .limit(1);
  if (method !== undefined) query = query.where('methodHash', '=', method);
  const row = await query.executeTakeFirst();
  if (row === undefined) return undefined;
  const kept = documents.get(row.id);
  if (kept !== undefined) return { ...aboutResult(row), document: kept };
  const { document: text } = await db
    .selectFrom('results')
    .select('document')
    .where('id', '=', row.id)
    .executeTakeFirstOrThrow();
  const document = fromJson<TrialResult>(text);
  documents.put(row.id, document, text.length);
  return { ...aboutResult(row), document };
}

/** The result a row keeps. */
export const toResult = (row: ResultRow): StoredResult => ({
  ...aboutResult(row),
  document: fromJson<TrialResult>(row.document),
});

const shortColumns = [
  'id',
  'sequence',
  'trialId',
  'methodHash',
  'recordingHash',
  'application',
  'versions',
  'computedAt',
  'runId',
] as const;

const aboutResult = (row: Pick<ResultRow, (typeof shortColumns)[number]>): Omit<StoredResult, 'document'> => ({
  id: row.id,
  sequence: row.sequence,
  trial: row.trialId,
  method: row.methodHash,
  ...(row.recordingHash === null ? {} : { recording: row.recordingHash }),
  application: row.application,
  versions: fromJson<ResultVersions>(row.versions),
  computedAt: row.computedAt as UtcInstant,
  ...(row.runId == null ? {} : { run: row.runId }),
});
