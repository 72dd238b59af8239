import type { Reason, Verdict } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import { type EffectiveDecisions, effectiveDecisions, type Standing, standingOf } from '../decisions/effective.ts';
import { decisionsOfTrials } from '../decisions/repository.ts';
import { inForce } from '../records/result.ts';

/** A metric as kept beside a result. */
export type MetricValue = { readonly value: number; readonly unit: string } | { readonly reason: Reason };

/** How a trial stands, under the newest result in force and all decisions. */
export interface TrialStanding {
  readonly standing: Standing;
  /** What the checks alone said; absent without a result. */
  readonly verdict?: Verdict;
  /** Id of the newest result. */
  readonly result?: string;
  /** Hash of the method that made it. */
  readonly method?: string;
  readonly effective: EffectiveDecisions;
  /** The metric that was asked for; absent where the result does not hold it. */
  readonly metric?: MetricValue;
}

/** What to look at: results of one method, or the newest of all; and one metric. */
export interface StandingQuery {
  readonly method?: string | undefined;
  /** A recomputation whose candidates stand as if it were adopted. */
  readonly run?: string | undefined;
  readonly metric?: string | undefined;
}

const atOnce = 1_000;

/** Standings of trials by trial id. Bound parameters are limited, so long lists are asked in pieces. */
export async function standingsOfTrials(
  db: Kysely<Database>,
  trials: readonly string[],
  query: StandingQuery = {},
): Promise<Map<string, TrialStanding>> {
  const standings = new Map<string, TrialStanding>();
  for (let start = 0; start < trials.length; start += atOnce) {
    const piece = trials.slice(start, start + atOnce);
    const decisions = await decisionsOfTrials(db, piece);
    const results = await newestResults(db, piece, query);
    const values =
      query.metric === undefined
        ? new Map()
        : await metricValues(
            db,
            [...results.values()].map(({ id }) => id),
            query.metric,
          );
    for (const trial of piece) {
      const effective = effectiveDecisions(decisions.get(trial) ?? []);
      const result = results.get(trial);
      const metric = result && values.get(result.id);
      standings.set(trial, {
        standing: standingOf(result?.verdict, effective),
        ...(result === undefined ? {} : { verdict: result.verdict, result: result.id, method: result.method }),
        effective,
        ...(metric === undefined ? {} : { metric }),
      });
    }
  }
  return standings;
}

interface NewestResult {
  readonly id: string;
  readonly verdict: Verdict;
  readonly method: string;
}

async function newestResults(
  db: Kysely<Database>,
  trials: readonly string[],
  { method, run }: StandingQuery,
): Promise<Map<string, NewestResult>> {
  let query = db
    .selectFrom('results')
    .select(['id', 'trialId', 'verdict', 'methodHash'])
    .where('trialId', 'in', trials)
    .where('sequence', '=', (newer) => {
      let newest = newer
        .selectFrom('results as other')
        .select(({ fn }) => fn.max('other.sequence').as('newest'))
        .whereRef('other.trialId', '=', 'results.trialId')
        .where((is) =>
          run === undefined ? inForce('other.runId') : is.or([inForce('other.runId'), is('other.runId', '=', run)]),
        );
      if (method !== undefined) newest = newest.where('other.methodHash', '=', method);
      return newest;
    });
  if (method !== undefined) query = query.where('methodHash', '=', method);
  const rows = await query.execute();
  return new Map(
    rows.map((row) => [row.trialId, { id: row.id, verdict: row.verdict as Verdict, method: row.methodHash }]),
  );
}

async function metricValues(
  db: Kysely<Database>,
  results: readonly string[],
  metric: string,
): Promise<Map<string, MetricValue>> {
  if (results.length === 0) return new Map();
  const rows = await db
    .selectFrom('metricValues')
    .select(['resultId', 'value', 'reason', 'unit'])
    .where('metric', '=', metric)
    .where('resultId', 'in', results)
    .execute();
  return new Map(
    rows.map((row) => [
      row.resultId,
      row.value === null ? { reason: row.reason as Reason } : { value: row.value, unit: row.unit ?? '' },
    ]),
  );
}
