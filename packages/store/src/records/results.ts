import type { TrialResult } from '@sthene/core';
import type { ResultRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import { type ChangedSince, changedSince } from '../queries/changed-since.ts';
import { type MetricHistoryQuery, type MetricPoint, metricHistory } from '../queries/metric-history.ts';
import { type Scope, write } from '../scope.ts';
import { appendResults } from './append-results.ts';
import { currentResult, type ResultVersions, type StoredResult, toResult } from './result.ts';
import { resultText } from './result-text.ts';

/** A result to append. */
export interface NewResult {
  readonly trial: string;
  readonly document: TrialResult;
  readonly versions: ResultVersions;
  /** The recomputation whose candidate it is. */
  readonly run?: string;
}

export interface ResultRepository {
  /** Appends a result; its method must be kept already (`refers-to-nothing`), the trial too (`not-found`). */
  add(result: NewResult, actor: Actor): Promise<StoredResult>;
  get(id: string): Promise<StoredResult | undefined>;
  /** Newest result in force of a trial under a method hash, or the newest of all. */
  current(trial: string, method?: string): Promise<StoredResult | undefined>;
  /** Every result of a trial, candidates of recomputations too, oldest first. */
  ofTrial(trial: string): Promise<StoredResult[]>;
  /** One metric of one person or squad over time, oldest first. */
  history(query: MetricHistoryQuery): Promise<MetricPoint[]>;
  /**
   * What of such a history may be another than it was at an entry of the audit trail.
   *
   * @param most trials and sessions that are worth telling apart, at most 1000
   * @returns undefined where everything may be
   */
  changedSince(sequence: number, most: number): Promise<ChangedSince | undefined>;
}

export function resultRepository(scope: Scope): ResultRepository {
  return {
    add: ({ trial, document, versions, run }, actor) =>
      write(scope, actor, async (writing) => {
        const [row] = await appendResults(scope, writing, [{ trial, text: resultText(document, versions) }], run);
        return toResult(row as ResultRow);
      }),
    async get(id) {
      const row = await scope.db.selectFrom('results').selectAll().where('id', '=', id).executeTakeFirst();
      return row && toResult(row);
    },
    current: (trial, method) => currentResult(scope, trial, method),
    async ofTrial(trial) {
      const rows = await scope.db
        .selectFrom('results')
        .selectAll()
        .where('trialId', '=', trial)
        .orderBy('sequence')
        .execute();
      return rows.map(toResult);
    },
    history: (query) => metricHistory(scope.db, query),
    changedSince: (sequence, most) => changedSince(scope.db, sequence, most),
  };
}
