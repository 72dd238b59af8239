import type { TrialResult } from '@sthene/core';
import { rowHash } from '../audit/records.ts';
import type { MetricValueRow, ResultRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import { toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { type MetricHistoryQuery, type MetricPoint, metricHistory } from '../queries/metric-history.ts';
import { type Scope, write } from '../scope.ts';
import { currentResult, type ResultVersions, type StoredResult, toResult } from './result.ts';

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
}

export function resultRepository(scope: Scope): ResultRepository {
  return {
    add: (result, actor) =>
      write(scope, actor, async ({ db, at, note }) => {
        const trial = await db
          .selectFrom('trials')
          .select('recordingHash')
          .where('id', '=', result.trial)
          .executeTakeFirst();
        if (trial === undefined) throw new StoreError('not-found', 'There is no such trial.', { kind: 'trial' });
        const row: Omit<ResultRow, 'sequence'> = {
          id: scope.ids.next(),
          trialId: result.trial,
          methodHash: result.document.method.sha256,
          recordingHash: trial.recordingHash,
          application: scope.application,
          versions: toJson(result.versions),
          document: toJson(result.document),
          verdict: result.document.verdict,
          computedAt: at,
          ...(result.run === undefined ? {} : { runId: result.run }),
        };
        const sequence = await note({
          action: 'result.add',
          subject: { kind: 'trial', id: result.trial },
          details: { record: row.id, method: row.methodHash, sha256: rowHash(row) },
        });
        await db
          .insertInto('results')
          .values({ ...row, sequence })
          .execute();
        const values = metricRows(row.id, result.document);
        if (values.length > 0) await db.insertInto('metricValues').values(values).execute();
        return toResult({ ...row, sequence });
      }),
    async get(id) {
      const row = await scope.db.selectFrom('results').selectAll().where('id', '=', id).executeTakeFirst();
      return row && toResult(row);
    },
    current: (trial, method) => currentResult(scope.db, trial, method),
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
  };
}

/** The metrics once more as rows, for questions over many trials; the document stays the truth. */
function metricRows(resultId: string, document: TrialResult): MetricValueRow[] {
  return Object.entries(document.metrics).map(([metric, measured]) =>
    'value' in measured
      ? { resultId, metric, value: measured.value, reason: null, unit: measured.unit }
      : { resultId, metric, value: null, reason: measured.reason, unit: null },
  );
}
