import type { AnyMethod, UtcInstant } from '@sthene/core';
import { rowHash } from '../audit/records.ts';
import type { MethodRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import { canonicalJson, fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { type Scope, write } from '../scope.ts';
import { filled, hash, wholeNumber } from '../values.ts';

/** A method with the hash that names it. */
export interface StoredMethod {
  readonly sha256: string;
  /** Of an isometric test or of a jump test, told apart by its schema. */
  readonly document: AnyMethod;
  readonly addedAt: UtcInstant;
}

export interface MethodRepository {
  /**
   * Keeps a method under its hash, as core computes it. The same document again changes nothing; another document under
   * the same hash throws `method-changed`.
   */
  add(sha256: string, document: AnyMethod, actor: Actor): Promise<StoredMethod>;
  get(sha256: string): Promise<StoredMethod | undefined>;
  /** By name, version, hash. Several documents may share name and version (site overrides). */
  list(): Promise<StoredMethod[]>;
}

export function methodRepository(scope: Scope): MethodRepository {
  const read = async (db: Scope['db'], sha256: string) => {
    const row = await db.selectFrom('methods').selectAll().where('sha256', '=', sha256).executeTakeFirst();
    return row && toMethod(row);
  };
  return {
    add: (sha256, document, actor) =>
      write(scope, actor, async ({ db, at, note, unchanged }) => {
        hash('method', sha256);
        filled('name', document.name);
        wholeNumber('version', document.version);
        const earlier = await read(db, sha256);
        if (earlier !== undefined) {
          if (canonicalJson(earlier.document) !== canonicalJson(document)) {
            throw new StoreError('method-changed', 'A method with this hash is kept already and says something else.', {
              sha256,
            });
          }
          unchanged();
          return earlier;
        }
        const row: MethodRow = {
          sha256,
          name: document.name,
          version: document.version,
          document: toJson(document),
          addedAt: at,
        };
        await db.insertInto('methods').values(row).execute();
        await note({
          action: 'method.add',
          subject: { kind: 'method', id: sha256 },
          details: { version: document.version, sha256: rowHash(row) },
        });
        return toMethod(row);
      }),
    get: (sha256) => read(scope.db, hash('method', sha256)),
    async list() {
      const rows = await scope.db
        .selectFrom('methods')
        .selectAll()
        .orderBy('name')
        .orderBy('version')
        .orderBy('sha256')
        .execute();
      return rows.map(toMethod);
    },
  };
}

function toMethod(row: MethodRow): StoredMethod {
  return { sha256: row.sha256, document: fromJson<AnyMethod>(row.document), addedAt: row.addedAt as UtcInstant };
}
