import type { ProtocolDocument, UtcInstant } from '@sthene/core';
import { rowHash } from '../audit/records.ts';
import { addRecord, changeRecord } from '../changes.ts';
import type { ProtocolRow, ProtocolVersionRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import { canonicalJson, fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { inTransaction, type Scope, write } from '../scope.ts';
import { filled, hash, wholeNumber } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

/** A protocol of the lab: the name under which its versions follow each other. */
export interface StoredProtocol {
  readonly id: string;
  readonly revision: number;
  /** Name of its newest version; unique. */
  readonly name: string;
  /** The test it builds on. */
  readonly test: string;
  /** Not offered any more; what used it stays as it is. */
  readonly archived: boolean;
}

/** One version with the hash that names it. */
export interface StoredProtocolVersion {
  readonly sha256: string;
  /** Absent for one that came with the program. */
  readonly protocol?: string;
  readonly document: ProtocolDocument;
  /** Account that added it. */
  readonly by: string;
  readonly addedAt: UtcInstant;
}

export interface ProtocolRepository {
  /** A new protocol with its first version here. Throws `already-there` for a name or a document that is kept already. */
  create(sha256: string, document: ProtocolDocument, actor: Actor): Promise<StoredProtocol>;
  /**
   * The version after the newest one. Throws `changed-meanwhile` when the document follows another one, `not-found` without
   * such a protocol.
   */
  succeed(id: string, sha256: string, document: ProtocolDocument, actor: Actor): Promise<StoredProtocolVersion>;
  /** Keeps a document that came with the program, so that sessions may refer to it. Again changes nothing. */
  keep(sha256: string, document: ProtocolDocument, actor: Actor): Promise<StoredProtocolVersion>;
  archive(id: string, archived: boolean, actor: Actor): Promise<StoredProtocol>;
  get(id: string): Promise<StoredProtocol | undefined>;
  /** By name. */
  list(): Promise<StoredProtocol[]>;
  version(sha256: string): Promise<StoredProtocolVersion | undefined>;
  /** Oldest first. */
  versionsOf(id: string): Promise<StoredProtocolVersion[]>;
  /** Sessions by the hash of the version they were run by. */
  sessionCounts(): Promise<ReadonlyMap<string, number>>;
  /** Ids of the sessions of one version, newest first. */
  sessionsOf(sha256: string, limit: number): Promise<string[]>;
}

const shape: RecordShape<StoredProtocol, 'protocols'> = {
  kind: 'protocol',
  table: 'protocols',
  check: ({ name, test }) => {
    filled('name', name);
    filled('test', test);
  },
  toRow: (one): ProtocolRow => ({ ...one, archived: one.archived ? 1 : 0 }),
  fromRow: (row) => ({ ...row, archived: row.archived === 1 }),
};

export function protocolRepository(scope: Scope): ProtocolRepository {
  const table = recordTable(shape);
  const versions = (db: Scope['db']) => db.selectFrom('protocolVersions').selectAll();
  return {
    create: (sha256, document, actor) =>
      inTransaction(scope, async (inner) => {
        const fresh = {
          id: inner.ids.next(),
          revision: 1,
          name: document.name,
          test: document.test.id,
          archived: false,
        };
        const added = await addRecord(inner, table, fresh, actor);
        await addVersion(inner, sha256, document, added.id, actor);
        return added;
      }),
    succeed: (id, sha256, document, actor) =>
      inTransaction(scope, async (inner) => {
        const newest = await versions(inner.db)
          .where('protocolId', '=', id)
          .orderBy('version', 'desc')
          .limit(1)
          .executeTakeFirst();
        if (newest === undefined) throw new StoreError('not-found', 'There is no such protocol.', { kind: 'protocol' });
        if (document.succeeds?.sha256 !== newest.sha256 || document.version !== newest.version + 1)
          throw new StoreError('changed-meanwhile', 'Another version has been added meanwhile.', {
            kind: 'protocol',
            stored: newest.version,
          });
        await changeRecord(inner, table, id, { name: document.name }, actor);
        return addVersion(inner, sha256, document, id, actor);
      }),
    keep: (sha256, document, actor) => addVersion(scope, sha256, document, undefined, actor),
    archive: (id, archived, actor) =>
      changeRecord(scope, table, id, { archived }, actor, {
        action: archived ? 'protocol.archive' : 'protocol.restore',
      }),
    get: (id) => readRecord(scope.db, shape, id),
    list: async () => (await scope.db.selectFrom('protocols').selectAll().orderBy('name').execute()).map(shape.fromRow),
    async version(sha256) {
      const row = await versions(scope.db).where('sha256', '=', hash('protocol', sha256)).executeTakeFirst();
      return row && toVersion(row);
    },
    versionsOf: async (id) =>
      (await versions(scope.db).where('protocolId', '=', id).orderBy('version').execute()).map(toVersion),
    async sessionCounts() {
      const rows = await scope.db
        .selectFrom('sessions')
        .select(['protocolHash', ({ fn }) => fn.countAll<number>().as('count')])
        .where('protocolHash', 'is not', null)
        .groupBy('protocolHash')
        .execute();
      return new Map(rows.map(({ protocolHash, count }) => [protocolHash as string, Number(count)]));
    },
    async sessionsOf(sha256, limit) {
      const rows = await scope.db
        .selectFrom('sessions')
        .select('id')
        .where('protocolHash', '=', hash('protocol', sha256))
        .orderBy('startedAt', 'desc')
        .orderBy('id', 'desc')
        .limit(limit)
        .execute();
      return rows.map(({ id }) => id);
    },
  };
}

function addVersion(
  scope: Scope,
  sha256: string,
  document: ProtocolDocument,
  protocol: string | undefined,
  actor: Actor,
): Promise<StoredProtocolVersion> {
  return write(scope, actor, async ({ db, at, note, unchanged }) => {
    hash('protocol', sha256);
    filled('name', document.name);
    wholeNumber('version', document.version);
    const earlier = await db.selectFrom('protocolVersions').selectAll().where('sha256', '=', sha256).executeTakeFirst();
    if (earlier !== undefined) {
      const { summary: _, note: __, ...was } = fromJson<ProtocolDocument>(earlier.document);
      const { summary: ___, note: ____, ...is } = document;
      if (protocol !== undefined || canonicalJson(was) !== canonicalJson(is))
        throw new StoreError('already-there', 'A protocol with this hash is kept already.', { sha256 });
      unchanged();
      return toVersion(earlier);
    }
    const row: ProtocolVersionRow = {
      sha256,
      protocolId: protocol ?? null,
      version: document.version,
      name: document.name,
      test: document.test.id,
      document: toJson(document),
      by: actor.by,
      addedAt: at,
    };
    await db.insertInto('protocolVersions').values(row).execute();
    await note({
      action: 'protocol.version',
      subject: { kind: 'protocol', id: sha256 },
      details: {
        version: document.version,
        sha256: rowHash(row),
        ...(protocol === undefined ? {} : { protocol }),
      },
    });
    return toVersion(row);
  });
}

function toVersion(row: ProtocolVersionRow): StoredProtocolVersion {
  return {
    sha256: row.sha256,
    ...(row.protocolId === null ? {} : { protocol: row.protocolId }),
    document: fromJson<ProtocolDocument>(row.document),
    by: row.by,
    addedAt: row.addedAt as UtcInstant,
  };
}
