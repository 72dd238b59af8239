import { rowHash } from '../audit/row-hash.ts';
import { rowsInto } from '../bulk-insert.ts';
import type { ResultRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import type { Scope, Writing } from '../scope.ts';
import type { ResultText } from './result-text.ts';

/** A result to append. */
export interface ResultToAppend {
  readonly trial: string;
  readonly text: ResultText;
}

const columns = [
  'id',
  'sequence',
  'trialId',
  'methodHash',
  'recordingHash',
  'application',
  'versions',
  'document',
  'verdict',
  'computedAt',
] as const;
// A column that came later is named only where it is filled: a store of an older schema has none.
const insertResults = rowsInto('results', columns);
const insertCandidates = rowsInto('results', [...columns, 'runId']);
const insertMetricValues = rowsInto('metricValues', ['resultId', 'metric', 'value', 'reason', 'unit']);

/**
 * Appends results with their metrics as rows and an audit entry each, within one write; throws `not-found` without such a trial.
 *
 * @param run the recomputation whose candidates they are
 */
export async function appendResults(
  scope: Scope,
  { db, at, noteAll }: Writing,
  results: readonly ResultToAppend[],
  run?: string,
): Promise<ResultRow[]> {
  if (results.length === 0) return [];
  const own = { db, engine: scope.engine };
  const found = await db
    .selectFrom('trials')
    .select(['id', 'recordingHash'])
    .where(
      'id',
      'in',
      results.map(({ trial }) => trial),
    )
    .execute();
  const recordings = new Map(found.map(({ id, recordingHash }) => [id, recordingHash]));
  const rows = results.map(({ trial, text }): Omit<ResultRow, 'sequence'> => {
    const recordingHash = recordings.get(trial);
    if (recordingHash === undefined) throw new StoreError('not-found', 'There is no such trial.', { kind: 'trial' });
    return {
      id: scope.ids.next(),
      trialId: trial,
      methodHash: text.method,
      recordingHash,
      application: scope.application,
      versions: text.versions,
      document: text.document,
      verdict: text.verdict,
      computedAt: at,
      ...(run === undefined ? {} : { runId: run }),
    };
  });
  const first = await noteAll(
    rows.map((row) => ({
      action: 'result.add',
      subject: { kind: 'trial', id: row.trialId },
      details: { record: row.id, method: row.methodHash, sha256: rowHash(row) },
    })),
  );
  const values: unknown[] = [];
  const metrics: unknown[] = [];
  for (const [i, row] of rows.entries()) {
    values.push(row.id, first + i, row.trialId, row.methodHash, row.recordingHash, row.application, row.versions);
    values.push(row.document, row.verdict, row.computedAt);
    if (run !== undefined) values.push(run);
    addMetrics(metrics, row.id, (results[i] as ResultToAppend).text);
  }
  await (run === undefined ? insertResults : insertCandidates)(own, values);
  await insertMetricValues(own, metrics);
  return rows.map((row, i) => ({ ...row, sequence: first + i }));
}

/** The metrics once more as rows, for questions over many trials; the document stays the truth. */
function addMetrics(to: unknown[], result: string, { metrics: { ids, values, words } }: ResultText): void {
  for (let i = 0; i < ids.length; i++) {
    const value = values[i] as number | null;
    if (value === null) to.push(result, ids[i], null, words[i], null);
    else to.push(result, ids[i], value, null, words[i]);
  }
}
