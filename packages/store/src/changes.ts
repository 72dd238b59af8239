import { StoreError } from './errors.ts';
import type { Actor } from './ports.ts';
import { type ChangeOptions, changedFields, checkExpected, keepRevision, type RevisedKind } from './revisions.ts';
import { type Scope, type Writing, write } from './scope.ts';

/**
 * Fields to change; a field that is left out stays. `undefined` is allowed for optional fields only and clears them.
 */
export type Changes<T> = {
  readonly [K in keyof T]?: object extends Pick<T, K> ? T[K] | undefined : T[K];
};

/** How a kind of record is read and written; the rest of adding and changing is the same for all. */
export interface RecordTable<T extends { readonly id: string; readonly revision: number }> {
  readonly kind: RevisedKind;
  /** Reads one record with the given database. */
  readonly read: (writing: Writing, id: string) => Promise<T | undefined>;
  /** Checks a record at the door; throws `bad-value`. */
  readonly check: (record: T) => void;
  readonly insert: (writing: Writing, record: T) => Promise<void>;
  readonly update: (writing: Writing, record: T) => Promise<void>;
}

/** Adds a record as revision 1, with its audit entry. */
export async function addRecord<T extends { readonly id: string; readonly revision: number }>(
  scope: Scope,
  table: RecordTable<T>,
  record: T,
  actor: Actor,
): Promise<T> {
  table.check(record);
  return write(scope, actor, async (writing) => {
    await table.insert(writing, record);
    await keepRevision(writing, scope.ids, {
      kind: table.kind,
      id: record.id,
      number: record.revision,
      state: stateOf(record),
      action: `${table.kind}.add`,
      fields: Object.keys(stateOf(record)).sort(),
    });
    return record;
  });
}

/**
 * Changes a record and keeps the new state as the next revision. Returns the record; a change that changes nothing leaves
 * no revision and no audit entry. Throws `not-found`, `changed-meanwhile`, `bad-value`.
 */
export async function changeRecord<T extends { readonly id: string; readonly revision: number }>(
  scope: Scope,
  table: RecordTable<T>,
  id: string,
  changes: Changes<Omit<T, 'id' | 'revision'>>,
  actor: Actor,
  options: ChangeOptions & { readonly action?: string } = {},
): Promise<T> {
  return write(scope, actor, async (writing) => {
    const before = await table.read(writing, id);
    if (before === undefined)
      throw new StoreError('not-found', `There is no such ${table.kind}.`, { kind: table.kind });
    checkExpected(table.kind, before.revision, options.expected);
    const after = { ...before, ...changes, id, revision: before.revision + 1 } as T;
    const fields = changedFields(stateOf(before), stateOf(after));
    if (fields.length === 0) {
      writing.unchanged();
      return before;
    }
    table.check(after);
    await table.update(writing, after);
    await keepRevision(writing, scope.ids, {
      kind: table.kind,
      id,
      number: after.revision,
      state: stateOf(after),
      action: options.action ?? `${table.kind}.change`,
      fields,
      reason: options.reason,
    });
    return after;
  });
}

/** A record without the fields that name it. */
function stateOf(record: { readonly id: string; readonly revision: number }): object {
  const { id: _, revision: __, ...state } = record;
  return state;
}
