import type { UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import { addRecord, type Changes, changeRecord, type RecordTable } from '../changes.ts';
import type { Database } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { inPieces } from '../queries/in-pieces.ts';
import { listSessions, type SessionFilter, type SessionPage } from '../queries/session-list.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { filled, hash, instant, oneOf, positive, wholeNumber } from '../values.ts';
import { type Session, type Setup, toSession, toSessionRow } from './session.ts';

type SessionFields = Omit<Session, 'id' | 'revision'>;

/** A session to add; empty setup and notes, with curves, unless given. An id of the caller's must never have been used. */
export type NewSession = Omit<SessionFields, 'setup' | 'notes' | 'resultsOnly'> &
  Partial<Pick<SessionFields, 'setup' | 'notes' | 'resultsOnly'>> & { readonly id?: string };

export interface SessionRepository {
  add(session: NewSession, actor: Actor): Promise<Session>;
  change(id: string, changes: Changes<SessionFields>, actor: Actor, options?: ChangeOptions): Promise<Session>;
  get(id: string): Promise<Session | undefined>;
  /** Those of these ids that exist, in any order. */
  getMany(ids: readonly string[]): Promise<Session[]>;
  /** What was set up the last time a person did a test, leaving one session out; undefined where nothing was noted. */
  lastSetup(of: {
    readonly person: string;
    readonly protocol: string;
    readonly except?: string | undefined;
  }): Promise<{ readonly at: UtcInstant; readonly values: Setup } | undefined>;
  /** How many sessions each person has, and of which test; `resultsOnly` leaves those with or without curves out. */
  counts(filter?: {
    readonly resultsOnly?: boolean;
  }): Promise<{ readonly person: string; readonly protocol: string; readonly sessions: number }[]>;
  /** Sessions with person, counts and peak force, newest first, page by page. */
  list(filter?: SessionFilter): Promise<SessionPage>;
}

const table: RecordTable<Session> = {
  kind: 'session',
  read: ({ db }, id) => readSession(db, id),
  check: (session) => {
    filled('protocol.id', session.protocol.id);
    wholeNumber('protocol.version', session.protocol.version);
    if (session.protocol.sha256 !== undefined) hash('protocol', session.protocol.sha256);
    instant('startedAt', session.startedAt);
    if (session.endedAt !== undefined) instant('endedAt', session.endedAt);
    positive('gravity', session.gravity);
    if (session.bodyWeight !== undefined) {
      positive('bodyWeight.value', session.bodyWeight.value);
      oneOf('bodyWeight.from', session.bodyWeight.from, ['weighing', 'given']);
    }
  },
  insert: async ({ db }, session) => {
    await db.insertInto('sessions').values(toSessionRow(session)).execute();
  },
  update: async ({ db }, session) => {
    const { id, ...row } = toSessionRow(session);
    await db.updateTable('sessions').set(row).where('id', '=', id).execute();
  },
};

export function sessionRepository(scope: Scope): SessionRepository {
  return {
    add: (session, actor) =>
      addRecord(
        scope,
        table,
        { setup: {}, notes: '', resultsOnly: false, ...session, id: session.id ?? scope.ids.next(), revision: 1 },
        actor,
      ),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readSession(scope.db, id),
    async getMany(ids) {
      const rows = await inPieces(ids, (piece) =>
        scope.db.selectFrom('sessions').selectAll().where('id', 'in', piece).execute(),
      );
      return rows.map(toSession);
    },
    async lastSetup({ person, protocol, except = '' }) {
      const row = await scope.db
        .selectFrom('sessions')
        .select(['startedAt', 'setup'])
        .where('personId', '=', person)
        .where('protocolId', '=', protocol)
        .where('id', '!=', except)
        // Sessions of results alone have none, so that of an import that was taken back none is found.
        .where('resultsOnly', '=', 0)
        .where('setup', '!=', toJson({}))
        .orderBy('startedAt', 'desc')
        .orderBy('id', 'desc')
        .limit(1)
        .executeTakeFirst();
      return row && { at: row.startedAt as UtcInstant, values: fromJson<Setup>(row.setup) };
    },
    async counts({ resultsOnly } = {}) {
      let query = scope.db
        .selectFrom('sessions')
        .select(['personId', 'protocolId', ({ fn }) => fn.countAll<number>().as('sessions')])
        .groupBy(['personId', 'protocolId']);
      if (resultsOnly !== undefined) query = query.where('resultsOnly', '=', resultsOnly ? 1 : 0);
      const rows = await query.execute();
      return rows.map((row) => ({ person: row.personId, protocol: row.protocolId, sessions: Number(row.sessions) }));
    },
    list: (filter = {}) => listSessions(scope.db, filter),
  };
}

async function readSession(db: Kysely<Database>, id: string): Promise<Session | undefined> {
  const row = await db.selectFrom('sessions').selectAll().where('id', '=', id).executeTakeFirst();
  return row && toSession(row);
}
