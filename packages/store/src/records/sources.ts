import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { SourceRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { filled } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

/** A described source. `D` is the capture package's own description type. */
export interface StoredSource<D = unknown> {
  readonly id: string;
  readonly revision: number;
  /** Unique. */
  readonly name: string;
  readonly description: D;
  readonly active: boolean;
}

type SourceFields = Omit<StoredSource, 'id' | 'revision'>;

export interface SourceRepository {
  add(source: Omit<SourceFields, 'active'>, actor: Actor): Promise<StoredSource>;
  change(id: string, changes: Changes<SourceFields>, actor: Actor, options?: ChangeOptions): Promise<StoredSource>;
  get(id: string): Promise<StoredSource | undefined>;
  /** By name. */
  list(): Promise<StoredSource[]>;
}

const shape: RecordShape<StoredSource, 'sources'> = {
  kind: 'source',
  table: 'sources',
  check: (source) => {
    filled('name', source.name);
  },
  toRow: (source): SourceRow => ({
    id: source.id,
    revision: source.revision,
    name: source.name,
    description: toJson(source.description),
    active: source.active ? 1 : 0,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    name: row.name,
    description: fromJson<unknown>(row.description),
    active: row.active === 1,
  }),
};

export function sourceRepository(scope: Scope): SourceRepository {
  const table = recordTable(shape);
  return {
    add: (source, actor) =>
      addRecord(scope, table, { ...source, active: true, id: scope.ids.next(), revision: 1 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readRecord(scope.db, shape, id),
    list: async () => (await scope.db.selectFrom('sources').selectAll().orderBy('name').execute()).map(shape.fromRow),
  };
}
