import type { UtcInstant } from '@sthene/core';
import { rowsInto } from '../bulk-insert.ts';
import type { AuditRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import type { Scope } from '../scope.ts';
import { filled } from '../values.ts';
import { type AuditDetails, chainStart, detailsText, entryHash } from './entry.ts';

/** What a write says of itself. */
export interface AuditNote {
  /** `person.add`, `session.change`, ...: noun, dot, verb. */
  readonly action: string;
  readonly subject: { readonly kind: string; readonly id: string };
  readonly details?: AuditDetails;
}

const insertEntries = rowsInto('audit', [
  'sequence',
  'at',
  'by',
  'role',
  'station',
  'action',
  'subjectKind',
  'subjectId',
  'details',
  'previousHash',
  'hash',
]);

/**
 * Appends entries to the chain, in their order. Must run in a transaction that holds the writers' lock (`inTransaction` does), else
 * two writers could follow the same entry; the unique `previous_hash` would then refuse the second one.
 *
 * @returns the sequence number of the first one; the others follow without a hole
 */
export async function appendAudit(
  scope: Pick<Scope, 'db' | 'engine'>,
  actor: Actor,
  at: UtcInstant,
  notes: readonly AuditNote[],
): Promise<number> {
  const last = await scope.db
    .selectFrom('audit')
    .select(['sequence', 'hash'])
    .orderBy('sequence', 'desc')
    .limit(1)
    .executeTakeFirst();
  const first = (last?.sequence ?? 0) + 1;
  const by = filled('by', actor.by);
  const station = filled('station', actor.station);
  const role = actor.role ?? null;
  let previousHash = last?.hash ?? chainStart;
  const values: unknown[] = [];
  for (const [i, { action, subject, details }] of notes.entries()) {
    const unsigned: Omit<AuditRow, 'hash'> = {
      sequence: first + i,
      ...{ at, by, role, station, action },
      subjectKind: subject.kind,
      subjectId: subject.id,
      details: detailsText(details ?? {}),
      previousHash,
    };
    const hash = entryHash(unsigned);
    values.push(unsigned.sequence, at, by, role, station, action, subject.kind, subject.id, unsigned.details);
    values.push(previousHash, hash);
    previousHash = hash;
  }
  await insertEntries(scope, values);
  return first;
}
