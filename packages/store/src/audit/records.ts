import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import { keptHashOfReceived } from './received.ts';
import { rowHash } from './row-hash.ts';

export { rowHash };

/** A row that does not agree with the audit trail. */
export interface RecordProblem {
  readonly table:
    | 'results'
    | 'decisions'
    | 'methods'
    | 'protocolVersions'
    | 'revisions'
    | 'receivedValues'
    | 'rigChecks'
    | 'rigCorrections';
  readonly id: string;
  /** `edited`: another content than the trail's; `removed`: the trail knows it, the table does not. */
  readonly problem: 'edited' | 'removed';
}

/**
 * Compares every row of results, decisions, methods, protocol versions, received values, checks and corrections of rigs, and revisions with the hash that its audit entry holds. The chain
 * proves the trail; this proves the records by the trail, also against someone who opens the file with other tools.
 */
export async function verifyRecords(db: Kysely<Database>): Promise<RecordProblem[]> {
  const problems: RecordProblem[] = [];
  let sequence = 0;
  for (;;) {
    const entries = await db
      .selectFrom('audit')
      .select(['sequence', 'action', 'subjectKind', 'subjectId', 'details'])
      .where('sequence', '>', sequence)
      .orderBy('sequence')
      .limit(500)
      .execute();
    for (const entry of entries) {
      sequence = entry.sequence;
      const details = JSON.parse(entry.details) as { sha256?: string; revision?: number; record?: string };
      if (details.sha256 === undefined) continue;
      const place = placeOf(entry.action, entry.subjectKind, entry.subjectId, details);
      if (place === undefined) continue;
      const { table } = place;
      if (table === 'receivedValues') {
        const kept = await keptHashOfReceived(db, place.id);
        if (kept === undefined) problems.push({ table: place.table, id: place.id, problem: 'removed' });
        else if (kept !== details.sha256) problems.push({ table: place.table, id: place.id, problem: 'edited' });
        continue;
      }
      const row = await readRow(db, { ...place, table });
      if (row === undefined) problems.push({ table: place.table, id: place.id, problem: 'removed' });
      else if (rowHash(row) !== details.sha256) problems.push({ table: place.table, id: place.id, problem: 'edited' });
    }
    if (entries.length < 500) return problems;
  }
}

interface Place {
  readonly table: RecordProblem['table'];
  readonly id: string;
  readonly kind: string;
  readonly number?: number;
}

function placeOf(
  action: string,
  kind: string,
  id: string,
  details: { revision?: number; record?: string },
): Place | undefined {
  if (details.revision !== undefined) return { table: 'revisions', id, kind, number: details.revision };
  if (action === 'protocol.version') return { table: 'protocolVersions', id, kind };
  if (action === 'received.values') return { table: 'receivedValues', id, kind };
  if (action === 'method.add') return { table: 'methods', id, kind };
  if (action === 'result.add' && details.record) return { table: 'results', id: details.record, kind };
  if (action.startsWith('decision.') && details.record) return { table: 'decisions', id: details.record, kind };
  if (action === 'rig.check' && details.record) return { table: 'rigChecks', id: details.record, kind };
  if (action === 'rig.correct' && details.record) return { table: 'rigCorrections', id: details.record, kind };
  return undefined;
}

async function readRow(
  db: Kysely<Database>,
  place: Place & { readonly table: Exclude<RecordProblem['table'], 'receivedValues'> },
): Promise<object | undefined> {
  if (place.table === 'methods') {
    return db.selectFrom('methods').selectAll().where('sha256', '=', place.id).executeTakeFirst();
  }
  if (place.table === 'protocolVersions') {
    return db.selectFrom('protocolVersions').selectAll().where('sha256', '=', place.id).executeTakeFirst();
  }
  if (place.table === 'revisions') {
    return db
      .selectFrom('revisions')
      .selectAll()
      .where('subjectKind', '=', place.kind)
      .where('subjectId', '=', place.id)
      .where('number', '=', place.number ?? 0)
      .executeTakeFirst();
  }
  // The sequence is the entry's own number, known only after its hash: it stays out of the row's hash.
  const row = await db.selectFrom(place.table).selectAll().where('id', '=', place.id).executeTakeFirst();
  if (row === undefined) return undefined;
  const { sequence: _, ...rest } = row;
  // A row that is no candidate is hashed without the column, as it was before there were any.
  return 'runId' in rest && rest.runId === null ? { ...rest, runId: undefined } : rest;
}
