import type { Kysely } from 'kysely';
import { addRecord, type Changes, changeRecord, type RecordTable } from '../changes.ts';
import type { Database, SquadRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { filled } from '../values.ts';

/** A group of people. Membership is part of its state, so that who belonged when can be read from its revisions. */
export interface Squad {
  readonly id: string;
  readonly revision: number;
  /** Unique. */
  readonly name: string;
  readonly notes: string;
  readonly active: boolean;
  /** Ids of people, sorted, each once. */
  readonly members: readonly string[];
}

type SquadFields = Omit<Squad, 'id' | 'revision'>;

/** A squad to add; empty notes, active and without members unless given. */
export type NewSquad = Pick<SquadFields, 'name'> & Partial<SquadFields>;

export interface SquadRepository {
  add(squad: NewSquad, actor: Actor): Promise<Squad>;
  change(id: string, changes: Changes<SquadFields>, actor: Actor, options?: ChangeOptions): Promise<Squad>;
  get(id: string): Promise<Squad | undefined>;
  /** By name, in the order of code points. */
  list(): Promise<Squad[]>;
}

const table: RecordTable<Squad> = {
  kind: 'squad',
  read: ({ db }, id) => readSquad(db, id),
  check: (squad) => {
    filled('name', squad.name);
  },
  insert: async ({ db }, squad) => {
    await db.insertInto('squads').values(toRow(squad)).execute();
    await putMembers(db, squad);
  },
  update: async ({ db }, squad) => {
    const { id, ...row } = toRow(squad);
    await db.updateTable('squads').set(row).where('id', '=', id).execute();
    await db.deleteFrom('squadMembers').where('squadId', '=', id).execute();
    await putMembers(db, squad);
  },
};

export function squadRepository(scope: Scope): SquadRepository {
  return {
    add: (squad, actor) =>
      addRecord(
        scope,
        table,
        {
          notes: '',
          active: true,
          ...squad,
          members: once(squad.members ?? []),
          id: scope.ids.next(),
          revision: 1,
        },
        actor,
      ),
    change: (id, changes, actor, options) => {
      const tidy = changes.members === undefined ? changes : { ...changes, members: once(changes.members) };
      return changeRecord(scope, table, id, tidy, actor, options);
    },
    get: (id) => readSquad(scope.db, id),
    async list() {
      const rows = await scope.db.selectFrom('squads').selectAll().orderBy('name').execute();
      const members = await scope.db.selectFrom('squadMembers').selectAll().orderBy('personId').execute();
      return rows.map((row) =>
        toSquad(
          row,
          members.filter((member) => member.squadId === row.id).map((member) => member.personId),
        ),
      );
    },
  };
}

async function readSquad(db: Kysely<Database>, id: string): Promise<Squad | undefined> {
  const row = await db.selectFrom('squads').selectAll().where('id', '=', id).executeTakeFirst();
  if (row === undefined) return undefined;
  const members = await db
    .selectFrom('squadMembers')
    .select('personId')
    .where('squadId', '=', id)
    .orderBy('personId')
    .execute();
  return toSquad(
    row,
    members.map((member) => member.personId),
  );
}

async function putMembers(db: Kysely<Database>, squad: Squad): Promise<void> {
  if (squad.members.length === 0) return;
  await db
    .insertInto('squadMembers')
    .values(squad.members.map((personId) => ({ squadId: squad.id, personId })))
    .execute();
}

/** Sorted by code unit, as the columns are. */
function once(ids: readonly string[]): string[] {
  return [...new Set(ids)].sort();
}

function toRow(squad: Squad): SquadRow {
  return {
    id: squad.id,
    revision: squad.revision,
    name: squad.name,
    notes: squad.notes,
    active: squad.active ? 1 : 0,
  };
}

function toSquad(row: SquadRow, members: readonly string[]): Squad {
  return { id: row.id, revision: row.revision, name: row.name, notes: row.notes, active: row.active === 1, members };
}
