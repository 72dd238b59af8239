import type { UtcInstant } from '@sthene/core';
import { rowHash } from './audit/records.ts';
import type { RevisionRow } from './database.ts';
import { StoreError } from './errors.ts';
import { canonicalJson, fromJson, toJson } from './json.ts';
import type { Ids } from './ports.ts';
import type { Scope, Writing } from './scope.ts';

/** Kinds of records that may be changed; each change keeps the whole state it led to. */
export type RevisedKind =
  | 'person'
  | 'squad'
  | 'session'
  | 'trial'
  | 'template'
  | 'protocol'
  | 'setting'
  | 'source'
  | 'rig'
  | 'day'
  | 'entry'
  | 'gate'
  | 'device'
  | 'capture'
  | 'origin'
  | 'video'
  | 'note'
  | 'blind-study'
  | 'blind-reading'
  | 'received'
  | 'recomputation';

/** One state of a record: what it said, from when, by whom, why. */
export interface Revision<T = Readonly<Record<string, unknown>>> {
  /** 1 is the record as it was added. */
  readonly number: number;
  readonly state: T;
  readonly by: string;
  readonly role?: string;
  readonly station: string;
  readonly at: UtcInstant;
  /** Empty where none was given. */
  readonly reason: string;
}

/** Options of a change. */
export interface ChangeOptions {
  /** Why; kept with the revision. */
  readonly reason?: string;
  /** The revision the change was made from; another one throws `changed-meanwhile`. */
  readonly expected?: number;
}

/** Reads earlier states. */
export interface RevisionRepository {
  /** Every state of a record, oldest first; empty when there is no such record. */
  of<T = Readonly<Record<string, unknown>>>(kind: RevisedKind, id: string): Promise<Revision<T>[]>;
}

export function revisionRepository(scope: Scope): RevisionRepository {
  return {
    async of<T>(kind: RevisedKind, id: string) {
      const rows = await scope.db
        .selectFrom('revisions')
        .selectAll()
        .where('subjectKind', '=', kind)
        .where('subjectId', '=', id)
        .orderBy('number')
        .execute();
      return rows.map((row) => toRevision<T>(row));
    },
  };
}

function toRevision<T>(row: RevisionRow): Revision<T> {
  return {
    number: row.number,
    state: fromJson<T>(row.document),
    by: row.by,
    ...(row.role === null ? {} : { role: row.role }),
    station: row.station,
    at: row.at as UtcInstant,
    reason: row.reason,
  };
}

/**
 * Keeps the state a write led to, and notes it in the audit trail by hash. The hash is salted: an unsalted hash of a name
 * could be guessed, and would outlive the erasure of the name.
 */
export async function keepRevision(
  writing: Writing,
  ids: Ids,
  revision: {
    readonly kind: RevisedKind;
    readonly id: string;
    readonly number: number;
    readonly state: object;
    readonly action: string;
    /** Names of the fields that changed. */
    readonly fields: readonly string[];
    readonly reason?: string | undefined;
  },
): Promise<void> {
  const row: RevisionRow = {
    subjectKind: revision.kind,
    subjectId: revision.id,
    number: revision.number,
    document: toJson(revision.state),
    salt: ids.next(),
    reason: revision.reason ?? '',
    by: writing.actor.by,
    role: writing.actor.role ?? null,
    station: writing.actor.station,
    at: writing.at,
  };
  await writing.db.insertInto('revisions').values(row).execute();
  await writing.note({
    action: revision.action,
    subject: { kind: revision.kind, id: revision.id },
    details: { revision: revision.number, fields: revision.fields, sha256: rowHash(row) },
  });
}

/** Refuses a change that was made from an older state than the stored one. */
export function checkExpected(kind: RevisedKind, stored: number, expected: number | undefined): void {
  if (expected !== undefined && expected !== stored) {
    throw new StoreError('changed-meanwhile', `The ${kind} has been changed by someone else meanwhile.`, {
      kind,
      expected,
      stored,
    });
  }
}

/** Names of the fields in which two states differ. */
export function changedFields(before: object, after: object): string[] {
  const old = before as Readonly<Record<string, unknown>>;
  const now = after as Readonly<Record<string, unknown>>;
  const names = new Set([...Object.keys(old), ...Object.keys(now)]);
  const text = (value: unknown) => (value === undefined ? '' : canonicalJson(value));
  return [...names].filter((name) => text(old[name]) !== text(now[name])).sort();
}
