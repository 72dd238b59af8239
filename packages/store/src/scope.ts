import type { UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import { type AuditNote, appendAudit } from './audit/append.ts';
import type { Database } from './database.ts';
import type { Engine } from './dialects/engine.ts';
import { StoreError } from './errors.ts';
import type { Actor, Clock, Ids } from './ports.ts';
import type { KeptDocuments } from './records/kept-documents.ts';
import { instant } from './values.ts';

/** What every repository works with: a database, or one transaction of it, and the ports. */
export interface Scope {
  readonly db: Kysely<Database>;
  readonly engine: Engine;
  readonly clock: Clock;
  readonly ids: Ids;
  /** Name and version of the program, kept with results and migrations. */
  readonly application: string;
  readonly documents: KeptDocuments;
  /** See `StoreOptions.place`. */
  readonly place?: (() => string | undefined) | undefined;
  /** Set inside a transaction; `failed` once a write in it has failed, so that it cannot be committed by half. */
  readonly transaction?: { failed: boolean };
}

/** One write under way. */
export interface Writing {
  readonly db: Kysely<Database>;
  readonly actor: Actor;
  readonly at: UtcInstant;
  /** Appends the audit entry of this write in the same transaction; gives its sequence number. */
  readonly note: (note: AuditNote) => Promise<number>;
  /** Appends the entries of a write that is several acts at once; gives the first one's number, the others follow. */
  readonly noteAll: (notes: readonly AuditNote[]) => Promise<number>;
  /** Says that there was nothing to write, so that no entry is due. */
  readonly unchanged: () => void;
}

/** Runs `act` in one transaction and hands it a scope bound to it; inside a transaction it joins that one. */
export async function inTransaction<T>(scope: Scope, act: (inner: Scope) => Promise<T>): Promise<T> {
  if (scope.transaction !== undefined) return act(scope);
  return scope.db.transaction().execute(async (db) => {
    await scope.engine.queue(db);
    const transaction = { failed: false };
    const result = await act({ ...scope, db, transaction });
    if (transaction.failed) {
      throw new StoreError(
        'transaction-failed',
        'A write in this transaction failed, so none of it was kept; the failure had been caught and ignored.',
      );
    }
    return result;
  });
}

/** Runs one write by `actor` with its audit entry: both are kept or neither. */
export async function write<T>(scope: Scope, given: Actor, act: (writing: Writing) => Promise<T>): Promise<T> {
  const place = scope.place?.();
  const actor = place === undefined ? given : { ...given, station: place };
  return inTransaction(scope, async (inner) => {
    const at = instant('clock', inner.clock.now());
    let noted = false;
    const noteAll = async (what: readonly AuditNote[]): Promise<number> => {
      noted = true;
      return appendAudit(inner, actor, at, what);
    };
    const note = (what: AuditNote): Promise<number> => noteAll([what]);
    const unchanged = () => {
      noted = true;
    };
    try {
      const result = await act({ db: inner.db, actor, at, note, noteAll, unchanged });
      if (!noted) throw new Error('A write must leave an audit entry.');
      return result;
    } catch (error) {
      if (inner.transaction !== undefined) inner.transaction.failed = true;
      throw error;
    }
  });
}
