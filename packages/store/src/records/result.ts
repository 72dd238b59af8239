import type { TrialResult, UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database, ResultRow } from '../database.ts';
import { fromJson } from '../json.ts';

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
}

/** Newest result of a trial, under one method or of all. */
export async function currentResult(
  db: Kysely<Database>,
  trial: string,
  method: string | undefined,
): Promise<StoredResult | undefined> {
  let query = db.selectFrom('results').selectAll().where('trialId', '=', trial).orderBy('sequence', 'desc').limit(1);
  if (method !== undefined) query = query.where('methodHash', '=', method);
  const row = await query.executeTakeFirst();
  return row && toResult(row);
}

/** The result a row keeps. */
export function toResult(row: ResultRow): StoredResult {
  return {
    id: row.id,
    sequence: row.sequence,
    trial: row.trialId,
    method: row.methodHash,
    ...(row.recordingHash === null ? {} : { recording: row.recordingHash }),
    application: row.application,
    versions: fromJson<ResultVersions>(row.versions),
    document: fromJson<TrialResult>(row.document),
    computedAt: row.computedAt as UtcInstant,
  };
}
