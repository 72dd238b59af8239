import type { JumpMethod, Method, UtcInstant } from '@sthene/core';
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
  readonly document: Method;
  readonly addedAt: UtcInstant;
}

/** A recipe of jump tests, which stands beside the methods: results refer to both in the same way. */
export interface StoredJumpMethod extends Omit<StoredMethod, 'document'> {
  readonly document: JumpMethod;
}

export interface MethodRepository {
  /**
   * Keeps a method under its hash, as core computes it. The same document again changes nothing; another document under
   * the same hash throws `method-changed`.
   */
  add(sha256: string, document: Method, actor: Actor): Promise<StoredMethod>;
  /** The same for a recipe of jump tests; `get` and `list` do not give it. */
  addJump(sha256: string, document: JumpMethod, actor: Actor): Promise<StoredJumpMethod>;
  get(sha256: string): Promise<StoredMethod | undefined>;
  getJump(sha256: string): Promise<StoredJumpMethod | undefined>;
  /** By name, version, hash. Several documents may share name and version (site overrides). */
  list(): Promise<StoredMethod[]>;
}

type Recipe = Method | JumpMethod;
type Stored<R extends Recipe> = Omit<StoredMethod, 'document'> & { readonly document: R };

const isJump = (document: Recipe): document is JumpMethod => document.schema === 'sthene.jump-method/1';

export function methodRepository(scope: Scope): MethodRepository {
  const read = async (db: Scope['db'], sha256: string) => {
    const row = await db.selectFrom('methods').selectAll().where('sha256', '=', sha256).executeTakeFirst();
    return row && toMethod<Recipe>(row);
  };
  const add = <R extends Recipe>(sha256: string, document: R, actor: Actor): Promise<Stored<R>> =>
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
        return earlier as Stored<R>;
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
      return toMethod<R>(row);
    });
  const find = async (sha256: string, jump: boolean): Promise<Stored<Recipe> | undefined> => {
    const found = await read(scope.db, hash('method', sha256));
    return found !== undefined && isJump(found.document) === jump ? found : undefined;
  };
  return {
    add,
    addJump: add,
    get: async (sha256) => (await find(sha256, false)) as StoredMethod | undefined,
    getJump: async (sha256) => (await find(sha256, true)) as StoredJumpMethod | undefined,
    async list() {
      const rows = await scope.db
        .selectFrom('methods')
        .selectAll()
        .orderBy('name')
        .orderBy('version')
        .orderBy('sha256')
        .execute();
      return rows.map((row) => toMethod<Method>(row)).filter(({ document }) => !isJump(document));
    },
  };
}

function toMethod<R extends Recipe>(row: MethodRow): Stored<R> {
  return { sha256: row.sha256, document: fromJson<R>(row.document), addedAt: row.addedAt as UtcInstant };
}
