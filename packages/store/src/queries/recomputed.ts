import type { UtcInstant, Verdict } from '@sthene/core';
import { type Kysely, sql } from 'kysely';
import type { Database } from '../database.ts';
import { effectiveDecisions, type Standing, standingOf } from '../decisions/effective.ts';
import { decisionsOfTrials } from '../decisions/repository.ts';
import { inForce } from '../records/result.ts';
import type { EffortKind } from '../records/trial.ts';

/** A trial that a run has still to judge. */
export interface PendingTrial {
  readonly trial: string;
  readonly session: string;
  readonly recording: string;
}

/** Reads the trials a run has still to judge; see `RecomputationRepository.pending`. */
export async function pendingTrials(
  db: Kysely<Database>,
  run: string,
  {
    trials,
    limit,
    after,
  }: { readonly trials?: readonly string[]; readonly limit: number; readonly after?: PendingTrial | undefined },
): Promise<PendingTrial[]> {
  let query = db
    .selectFrom('trials')
    .innerJoin('sessions', 'sessions.id', 'trials.sessionId')
    .leftJoin('recomputed', (join) =>
      join.onRef('recomputed.trialId', '=', 'trials.id').on('recomputed.runId', '=', run),
    )
    .select(['trials.id', 'trials.sessionId', 'trials.recordingHash'])
    .where('trials.recordingHash', 'is not', null)
    .where('trials.forceSelection', 'is not', null)
    .where(({ or, eb, exists, selectFrom }) =>
      or([
        eb('recomputed.trialId', 'is', null),
        eb('recomputed.trialRevision', '<>', eb.ref('trials.revision')),
        eb('recomputed.sessionRevision', '<>', eb.ref('sessions.revision')),
        exists(
          selectFrom('results')
            .select('results.id')
            .whereRef('results.trialId', '=', 'trials.id')
            .whereRef('results.sequence', '>', 'recomputed.basis')
            .where(inForce('results.runId')),
        ),
        exists(
          selectFrom('decisions')
            .select('decisions.id')
            .whereRef('decisions.trialId', '=', 'trials.id')
            .whereRef('decisions.sequence', '>', 'recomputed.basis'),
        ),
      ]),
    )
    .orderBy('trials.recordingHash')
    .orderBy('trials.id')
    .limit(limit);
  if (trials !== undefined) query = query.where('trials.id', 'in', trials);
  if (after !== undefined)
    query = query.where(
      sql<boolean>`(${sql.ref('trials.recordingHash')}, ${sql.ref('trials.id')}) > (${after.recording}, ${after.trial})`,
    );
  return (await query.execute()).map((row) => ({
    trial: row.id,
    session: row.sessionId,
    recording: row.recordingHash as string,
  }));
}

/** Which outcomes to read. */
export interface OutcomeFilter {
  /** Only trials that could not be judged, or only those whose verdict changes. */
  readonly only?: 'failed' | 'flipped';
  /** Trial id of the last row of the page before. */
  readonly after?: string;
  /** 500 unless given. */
  readonly limit?: number;
}

/** What a run made of a trial, beside what was in force when it did. */
export interface RecomputedTrial {
  readonly trial: string;
  readonly session: string;
  readonly person: string;
  readonly position: number;
  readonly effort: EffortKind;
  /** Protocol id of the session. */
  readonly test: string;
  /** Start of the session. */
  readonly at: UtcInstant;
  readonly before?: {
    readonly result: string;
    readonly method: string;
    readonly verdict: Verdict;
    /** With the decisions that are in force now. */
    readonly standing: Standing;
  };
  readonly after?: { readonly result: string; readonly verdict: Verdict; readonly standing: Standing };
  /** Why it could not be judged. */
  readonly problem?: { readonly code: string; readonly words: string };
}

/** Outcomes of a run in the order of trial ids. */
export async function outcomesOf(db: Kysely<Database>, run: string, filter: OutcomeFilter): Promise<RecomputedTrial[]> {
  let query = db
    .selectFrom('recomputed')
    .innerJoin('trials', 'trials.id', 'recomputed.trialId')
    .innerJoin('sessions', 'sessions.id', 'trials.sessionId')
    .leftJoin('results as before', 'before.id', 'recomputed.beforeId')
    .select(['recomputed.trialId', 'recomputed.code', 'recomputed.words', 'trials.sessionId', 'trials.position'])
    .select(['trials.effort', 'sessions.personId', 'sessions.protocolId', 'sessions.startedAt'])
    // The verdicts as noted beside them: in their own rows they lie behind the documents.
    .select(['recomputed.beforeId', 'before.methodHash as beforeMethod', 'recomputed.beforeVerdict'])
    .select(['recomputed.resultId as afterId', 'recomputed.verdict as afterVerdict'])
    .where('recomputed.runId', '=', run)
    .orderBy('recomputed.trialId')
    .limit(filter.limit ?? 500);
  if (filter.after !== undefined) query = query.where('recomputed.trialId', '>', filter.after);
  if (filter.only === 'failed') query = query.where('recomputed.code', 'is not', null);
  if (filter.only === 'flipped') query = query.whereRef('recomputed.beforeVerdict', '<>', 'recomputed.verdict');
  const rows = await query.execute();
  const decisions = await decisionsOfTrials(
    db,
    rows.map((row) => row.trialId),
  );
  const standing = (trial: string, verdict: string | null) =>
    standingOf(verdict as Verdict, effectiveDecisions(decisions.get(trial) ?? []));
  return rows.map((row) => ({
    trial: row.trialId,
    session: row.sessionId,
    person: row.personId,
    position: row.position,
    effort: row.effort as EffortKind,
    test: row.protocolId,
    at: row.startedAt as UtcInstant,
    ...(row.beforeId === null
      ? {}
      : {
          before: {
            result: row.beforeId,
            method: row.beforeMethod as string,
            verdict: row.beforeVerdict as Verdict,
            standing: standing(row.trialId, row.beforeVerdict),
          },
        }),
    ...(row.afterId === null
      ? {}
      : {
          after: {
            result: row.afterId,
            verdict: row.afterVerdict as Verdict,
            standing: standing(row.trialId, row.afterVerdict),
          },
        }),
    ...(row.code === null ? {} : { problem: { code: row.code, words: row.words ?? '' } }),
  }));
}

/** How many trials go from one verdict to another; those that keep theirs stand there too. */
export type Flips = readonly { readonly from: Verdict; readonly to: Verdict; readonly trials: number }[];

/** Counts verdicts before and after. */
export async function flipsOf(db: Kysely<Database>, run: string): Promise<Flips> {
  const rows = await db
    .selectFrom('recomputed')
    .select(['beforeVerdict as from', 'verdict as to', sql<number>`count(*)`.as('trials')])
    .where('runId', '=', run)
    .where('beforeVerdict', 'is not', null)
    .where('verdict', 'is not', null)
    .groupBy(['beforeVerdict', 'verdict'])
    .orderBy('beforeVerdict')
    .orderBy('verdict')
    .execute();
  return rows.map((row) => ({ from: row.from as Verdict, to: row.to as Verdict, trials: Number(row.trials) }));
}

/** One value of a result. */
export interface ValueOfResult {
  readonly result: string;
  readonly metric: string;
  readonly value: number;
  readonly unit: string;
}

/** Many metrics of many results at once, for going through an archive. */
export async function valuesOfResults(
  db: Kysely<Database>,
  results: readonly string[],
  metrics: readonly string[],
): Promise<ValueOfResult[]> {
  if (results.length === 0 || metrics.length === 0) return [];
  const rows = await db
    .selectFrom('metricValues')
    .select(['resultId', 'metric', 'value', 'unit'])
    .where('resultId', 'in', results)
    .where('metric', 'in', metrics)
    .where('value', 'is not', null)
    .execute();
  return rows.map(({ resultId, metric, value, unit }) => ({
    result: resultId,
    metric,
    value: value as number,
    unit: unit ?? '',
  }));
}
