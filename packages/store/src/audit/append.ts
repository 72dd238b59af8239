import type { UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { AuditRow, Database } from '../database.ts';
import type { Actor } from '../ports.ts';
import { filled } from '../values.ts';
import { type AuditDetails, chainStart, detailsText, entryHash } from './entry.ts';

/** What a write says of itself. */
export interface AuditNote {
  /** `person.add`, `session.change`, ...: noun, dot, verb. */
  readonly action: string;
  readonly subject: { readonly kind: string; readonly id: string };
  readonly details?: AuditDetails;
}

/**
 * Appends one entry to the chain. Must run in a transaction that holds the writers' lock (`inTransaction` does), else two
 * writers could follow the same entry; the unique `previous_hash` would then refuse the second one.
 */
export async function appendAudit(
  db: Kysely<Database>,
  actor: Actor,
  at: UtcInstant,
  note: AuditNote,
): Promise<number> {
  const last = await db
    .selectFrom('audit')
    .select(['sequence', 'hash'])
    .orderBy('sequence', 'desc')
    .limit(1)
    .executeTakeFirst();
  const unsigned: Omit<AuditRow, 'hash'> = {
    sequence: (last?.sequence ?? 0) + 1,
    at,
    by: filled('by', actor.by),
    role: actor.role ?? null,
    station: filled('station', actor.station),
    action: note.action,
    subjectKind: note.subject.kind,
    subjectId: note.subject.id,
    details: detailsText(note.details ?? {}),
    previousHash: last?.hash ?? chainStart,
  };
  await db
    .insertInto('audit')
    .values({ ...unsigned, hash: entryHash(unsigned) })
    .execute();
  return unsigned.sequence;
}
