import { hashOfReceived } from '../audit/received.ts';
import { addRecord, changeRecord } from '../changes.ts';
import type { ReceivedSessionRow } from '../database.ts';
import type { FileStore } from '../files/file-store.ts';
import type { Actor } from '../ports.ts';
import { inPieces } from '../queries/in-pieces.ts';
import { type MetricOfSessions, type ReceivedHistoryQuery, receivedHistory } from '../queries/received-history.ts';
import type { ChangeOptions } from '../revisions.ts';
import { inTransaction, type Scope, write } from '../scope.ts';
import { turn } from '../turn.ts';
import { filled, finite, hash, oneOf, wholeNumber, written } from '../values.ts';
import {
  type NewReceivedImport,
  type NewReceivedSession,
  type ReceivedImport,
  type ReceivedSession,
  type ReceivedValue,
  receivedKinds,
  receivedOf,
  toImport,
  toImportRow,
  toValue,
  toValueRow,
} from './received-value.ts';
import { readRecord, recordTable } from './record-table.ts';
import { extensionOf } from './recordings.ts';
import { sessionRepository } from './sessions.ts';

export interface ReceivedRepository {
  /** Keeps the file, then its sessions and values as one act. Gives the import and the ids of its sessions, in the order given. */
  add(given: NewReceivedImport, actor: Actor): Promise<{ received: ReceivedImport; sessions: readonly string[] }>;
  /** Takes an import back, or puts it back: its sessions are listed no more, and nothing is removed. */
  takeBack(id: string, takenBack: boolean, actor: Actor, options?: ChangeOptions): Promise<ReceivedImport>;
  get(id: string): Promise<ReceivedImport | undefined>;
  /** Imports of a file, taken back ones too. */
  ofFile(sha256: string): Promise<ReceivedImport[]>;
  /** Newest first. */
  list(): Promise<ReceivedImport[]>;
  /** The original file; undefined when there is no such import. Throws `file-damaged`. */
  bytes(id: string): Promise<Uint8Array | undefined>;
  /** How a session of results only came to be; undefined for one with curves. */
  session(id: string): Promise<ReceivedSession | undefined>;
  /** As `session`, of many at once, by session, with the name of the file. */
  about(sessions: readonly string[]): Promise<Map<string, ReceivedSession & { readonly fileName: string }>>;
  /** Method labels of an import, in order of the alphabet. */
  labelsOf(importId: string): Promise<string[]>;
  sessionsOf(importId: string): Promise<ReceivedSession[]>;
  /** By row of the table, then metric. */
  ofSession(session: string): Promise<ReceivedValue[]>;
  /** Whether there is a value with this id. */
  hasValue(id: string): Promise<boolean>;
  /** Those of the given origins that are there and were not taken back. */
  knownOrigins(origins: readonly string[]): Promise<Set<string>>;
  /** What others gave of one person, of sessions that were not taken back, oldest first. */
  history(query: ReceivedHistoryQuery): Promise<MetricOfSessions[]>;
}

const shape = {
  kind: 'received',
  table: 'receivedImports',
  check: (one: ReceivedImport) => {
    oneOf('kind', one.kind, receivedKinds);
    hash('file', one.file);
    written('fileName', one.fileName);
    wholeNumber('byteCount', one.byteCount);
  },
  toRow: toImportRow,
  fromRow: toImport,
} as const;

/** Bound parameters of one statement are limited. */
const atOnce = 500;

export function receivedRepository(scope: Scope, files: FileStore): ReceivedRepository {
  const table = recordTable(shape);
  return {
    async add(given, actor) {
      for (const session of given.sessions) checkSession(session);
      // The file first, as for a recording: a record without its file would be a loss.
      const file = await files.put(given.bytes, extensionOf(given.fileName));
      return inTransaction(scope, (inner) => addAll(inner, given, file, actor));
    },
    takeBack: (id, takenBack, actor, options) =>
      changeRecord(scope, table, id, { takenBack }, actor, {
        ...options,
        action: takenBack ? 'received.take-back' : 'received.put-back',
      }),
    get: (id) => readRecord(scope.db, shape, id),
    async ofFile(sha256) {
      const all = scope.db.selectFrom('receivedImports').selectAll().where('fileSha256', '=', sha256);
      return (await all.orderBy('importedAt').orderBy('id').execute()).map(toImport);
    },
    async list() {
      const all = scope.db.selectFrom('receivedImports').selectAll();
      return (await all.orderBy('importedAt', 'desc').orderBy('id').execute()).map(toImport);
    },
    async bytes(id) {
      const known = await readRecord(scope.db, shape, id);
      return known && files.get(known.file);
    },
    async session(id) {
      const row = await scope.db
        .selectFrom('receivedSessions')
        .selectAll()
        .where('sessionId', '=', id)
        .executeTakeFirst();
      return row && toReceivedSession(row);
    },
    async about(sessions) {
      const rows = await inPieces(sessions, (piece) =>
        scope.db
          .selectFrom('receivedSessions')
          .innerJoin('receivedImports', 'receivedImports.id', 'receivedSessions.importId')
          .selectAll('receivedSessions')
          .select('receivedImports.fileName')
          .where('sessionId', 'in', piece)
          .execute(),
      );
      return new Map(rows.map((row) => [row.sessionId, { ...toReceivedSession(row), fileName: row.fileName }]));
    },
    async labelsOf(importId) {
      const rows = scope.db.selectFrom('receivedSessions').select('methodLabel').distinct();
      const found = await rows.where('importId', '=', importId).orderBy('methodLabel').execute();
      return found.map(({ methodLabel }) => methodLabel);
    },
    async sessionsOf(importId) {
      const all = scope.db.selectFrom('receivedSessions').selectAll().where('importId', '=', importId);
      return (await all.orderBy('sessionId').execute()).map(toReceivedSession);
    },
    async ofSession(session) {
      const all = scope.db.selectFrom('receivedValues').selectAll().where('sessionId', '=', session);
      return (await all.orderBy('row').orderBy('metric').orderBy('id').execute()).map(toValue);
    },
    async hasValue(id) {
      return (
        (await scope.db.selectFrom('receivedValues').select('id').where('id', '=', id).executeTakeFirst()) !== undefined
      );
    },
    async knownOrigins(origins) {
      const rows = await inPieces(origins, (piece) =>
        scope.db
          .selectFrom('receivedValues')
          .innerJoin('receivedImports', 'receivedImports.id', 'receivedValues.importId')
          .select('origin')
          .where('origin', 'in', piece)
          .where('takenBack', '=', 0)
          .execute(),
      );
      return new Set(rows.flatMap(({ origin }) => origin ?? []));
    },
    history: (query) => receivedHistory(scope.db, query),
  };
}

function checkSession(session: NewReceivedSession): void {
  filled('methodLabel', session.methodLabel);
  for (const value of session.values) {
    filled('metric', value.metric);
    oneOf('of', value.of, receivedOf);
    wholeNumber('row', value.row);
    if (value.position !== undefined) wholeNumber('position', value.position);
    if (value.value !== undefined) finite('value', value.value);
  }
}

async function addAll(
  inner: Scope,
  given: NewReceivedImport,
  file: { readonly sha256: string; readonly byteCount: number },
  actor: Actor,
): Promise<{ received: ReceivedImport; sessions: string[] }> {
  const id = inner.ids.next();
  const sessions = sessionRepository(inner);
  const made: ReceivedSessionRow[] = [];
  const values: ReceivedValue[] = [];
  for (const { values: own, timeKnown, methodLabel, ...session } of given.sessions) {
    const added = await sessions.add({ ...session, resultsOnly: true }, actor);
    made.push({ sessionId: added.id, importId: id, methodLabel, timeKnown: timeKnown ? 1 : 0 });
    for (const value of own) values.push({ ...value, id: inner.ids.next(), import: id, session: added.id });
  }
  const received: ReceivedImport = {
    id,
    revision: 1,
    kind: given.kind,
    file: file.sha256,
    fileName: given.fileName,
    byteCount: file.byteCount,
    mapping: given.mapping,
    sessions: made.length,
    values: values.length,
    importedAt: inner.clock.now(),
    takenBack: false,
  };
  await addRecord(inner, recordTable(shape), received, actor);
  const rows = values.map(toValueRow);
  await write(inner, actor, async ({ db, note }) => {
    for (let start = 0; start < made.length; start += atOnce)
      await db
        .insertInto('receivedSessions')
        .values(made.slice(start, start + atOnce))
        .execute();
    for (let start = 0; start < rows.length; start += atOnce) {
      await turn();
      await db
        .insertInto('receivedValues')
        .values(rows.slice(start, start + atOnce))
        .execute();
    }
    const hash = await hashOfReceived(
      made.toSorted((a, b) => (a.sessionId < b.sessionId ? -1 : 1)),
      rows.toSorted((a, b) => (a.id < b.id ? -1 : 1)),
    );
    await note({
      action: 'received.values',
      subject: { kind: 'received', id },
      details: { sessions: made.length, values: rows.length, sha256: hash },
    });
  });
  return { received, sessions: made.map(({ sessionId }) => sessionId) };
}

const toReceivedSession = (row: ReceivedSessionRow): ReceivedSession => ({
  session: row.sessionId,
  import: row.importId,
  methodLabel: row.methodLabel,
  timeKnown: row.timeKnown === 1,
});
