import { StoreError } from '../errors.ts';
import { canonicalJson, fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { type ChangeOptions, checkExpected, keepRevision } from '../revisions.ts';
import { type Scope, write } from '../scope.ts';

/** A setting with its revision. */
export interface Setting<T = unknown> {
  readonly key: string;
  readonly revision: number;
  readonly value: T;
}

export interface SettingRepository {
  get<T = unknown>(key: string): Promise<Setting<T> | undefined>;
  /** Sets a value that JSON can hold. The same value again changes nothing. */
  set<T>(key: string, value: T, actor: Actor, options?: ChangeOptions): Promise<Setting<T>>;
  /** By key. */
  list(): Promise<Setting[]>;
}

const keyPattern = /^[a-z][a-z0-9-]*(\.[a-z0-9-]+)*$/;

export function settingRepository(scope: Scope): SettingRepository {
  const read = async <T>(db: Scope['db'], key: string): Promise<Setting<T> | undefined> => {
    const row = await db.selectFrom('settings').selectAll().where('key', '=', key).executeTakeFirst();
    return row && { key, revision: row.revision, value: fromJson<T>(row.document) };
  };
  return {
    get: (key) => read(scope.db, key),
    set: <T>(key: string, value: T, actor: Actor, options: ChangeOptions = {}) =>
      write(scope, actor, async (writing): Promise<Setting<T>> => {
        if (!keyPattern.test(key)) {
          throw new StoreError('bad-value', 'A setting key is lower-case words with dots between.', { field: 'key' });
        }
        const earlier = await read<T>(writing.db, key);
        checkExpected('setting', earlier?.revision ?? 0, options.expected);
        if (earlier !== undefined && canonicalJson(earlier.value) === canonicalJson(value)) {
          writing.unchanged();
          return earlier;
        }
        const revision = (earlier?.revision ?? 0) + 1;
        const row = { key, revision, document: toJson(value) };
        await writing.db
          .insertInto('settings')
          .values(row)
          .onConflict((conflict) => conflict.column('key').doUpdateSet({ revision, document: row.document }))
          .execute();
        await keepRevision(writing, scope.ids, {
          kind: 'setting',
          id: key,
          number: revision,
          state: { value },
          action: 'setting.set',
          fields: ['value'],
          reason: options.reason,
        });
        return { key, revision, value };
      }),
    async list() {
      const rows = await scope.db.selectFrom('settings').selectAll().orderBy('key').execute();
      return rows.map((row) => ({ key: row.key, revision: row.revision, value: fromJson<unknown>(row.document) }));
    },
  };
}
