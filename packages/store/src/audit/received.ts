import type { Kysely } from 'kysely';
import type { Database, ReceivedSessionRow, ReceivedValueRow } from '../database.ts';
import { turn } from '../turn.ts';
import { rowHash } from './row-hash.ts';

const atOnce = 500;

/** Hash of all that an import brought, as its audit entry keeps it: of the hashes of its rows, sessions by id and values by id. */
export async function hashOfReceived(
  sessions: readonly ReceivedSessionRow[],
  values: readonly ReceivedValueRow[],
): Promise<string> {
  const hashes: string[] = [];
  for (const [i, row] of [...sessions, ...values].entries()) {
    hashes.push(rowHash(row));
    if (i % atOnce === atOnce - 1) await turn();
  }
  return rowHash(hashes);
}

/** As `hashOfReceived` of what lies in the tables; undefined when nothing of the import is left. */
export async function keptHashOfReceived(db: Kysely<Database>, id: string): Promise<string | undefined> {
  const values = await db.selectFrom('receivedValues').selectAll().where('importId', '=', id).orderBy('id').execute();
  const sessions = await db
    .selectFrom('receivedSessions')
    .selectAll()
    .where('importId', '=', id)
    .orderBy('sessionId')
    .execute();
  return sessions.length === 0 ? undefined : hashOfReceived(sessions, values);
}
