import type { Actor } from '../ports.ts';
import { type Scope, write } from '../scope.ts';
import type { AuditNote } from './append.ts';
import { type AuditEntry, toEntry } from './entry.ts';
import { type RecordProblem, verifyRecords } from './records.ts';
import { type AuditVerdict, type ChainEnd, verifyChain } from './verify.ts';

/** Which entries to list. */
export interface AuditFilter {
  readonly subject?: { readonly kind: string; readonly id?: string };
  readonly by?: string;
  /** Entries before this sequence number; for the next page. */
  readonly before?: number;
  /** 100 unless given. */
  readonly limit?: number;
}

/** The audit trail. */
export interface AuditRepository {
  /** Entries, newest first. */
  list(filter?: AuditFilter): Promise<AuditEntry[]>;
  /** Notes an act that changes no record: a login, an export, a refused request. */
  add(note: AuditNote, actor: Actor): Promise<number>;
  /** Proves the chain; see `verifyChain`. */
  verify(kept?: ChainEnd): Promise<AuditVerdict>;
  /** Proves the records that only grow by the chain; see `verifyRecords`. Run `verify` first. */
  verifyRecords(): Promise<RecordProblem[]>;
  /** The end of the chain now; undefined for an empty one. */
  last(): Promise<ChainEnd | undefined>;
}

export function auditRepository(scope: Scope): AuditRepository {
  return {
    async list(filter = {}) {
      let query = scope.db
        .selectFrom('audit')
        .selectAll()
        .orderBy('sequence', 'desc')
        .limit(filter.limit ?? 100);
      if (filter.subject !== undefined) query = query.where('subjectKind', '=', filter.subject.kind);
      if (filter.subject?.id !== undefined) query = query.where('subjectId', '=', filter.subject.id);
      if (filter.by !== undefined) query = query.where('by', '=', filter.by);
      if (filter.before !== undefined) query = query.where('sequence', '<', filter.before);
      return (await query.execute()).map(toEntry);
    },
    add: (note, actor) => write(scope, actor, (writing) => writing.note(note)),
    verify: (kept) => verifyChain(scope.db, kept),
    verifyRecords: () => verifyRecords(scope.db),
    last: () =>
      scope.db.selectFrom('audit').select(['sequence', 'hash']).orderBy('sequence', 'desc').limit(1).executeTakeFirst(),
  };
}
