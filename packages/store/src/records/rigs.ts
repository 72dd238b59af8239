import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { RigRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { filled, short } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

/** One set of plates with its bar. */
export interface Rig {
  readonly id: string;
  readonly revision: number;
  /** Unique. */
  readonly name: string;
  /** Letter and shape tell rigs apart on every screen. */
  readonly letter: string;
  readonly shape: string;
  /** Ids of the sources that form it. */
  readonly sources: readonly string[];
  readonly notes: string;
  readonly active: boolean;
}

type RigFields = Omit<Rig, 'id' | 'revision'>;

export interface RigRepository {
  add(rig: Omit<RigFields, 'active'>, actor: Actor): Promise<Rig>;
  change(id: string, changes: Changes<RigFields>, actor: Actor, options?: ChangeOptions): Promise<Rig>;
  get(id: string): Promise<Rig | undefined>;
  /** By letter, then name. */
  list(): Promise<Rig[]>;
}

const shape: RecordShape<Rig, 'rigs'> = {
  kind: 'rig',
  table: 'rigs',
  check: (rig) => {
    filled('name', rig.name);
    filled('letter', rig.letter);
    short('shape', rig.shape);
  },
  toRow: (rig): RigRow => ({
    id: rig.id,
    revision: rig.revision,
    name: rig.name,
    letter: rig.letter,
    shape: rig.shape,
    sources: toJson(rig.sources),
    notes: rig.notes,
    active: rig.active ? 1 : 0,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    name: row.name,
    letter: row.letter,
    shape: row.shape,
    sources: fromJson<string[]>(row.sources),
    notes: row.notes,
    active: row.active === 1,
  }),
};

export function rigRepository(scope: Scope): RigRepository {
  const table = recordTable(shape);
  return {
    add: (rig, actor) => addRecord(scope, table, { ...rig, active: true, id: scope.ids.next(), revision: 1 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readRecord(scope.db, shape, id),
    list: async () =>
      (await scope.db.selectFrom('rigs').selectAll().orderBy('letter').orderBy('name').execute()).map(shape.fromRow),
  };
}
