import { sql } from 'kysely';
import { addRecord, type Changes, changeRecord, type RecordTable } from '../changes.ts';
import type { PersonRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import { inPieces } from '../queries/in-pieces.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { containing, day, filled, fold, oneOf, searchWords, short } from '../values.ts';

export const sexes = ['female', 'male', 'other'] as const;

/** Someone who is tested. */
export interface Person {
  readonly id: string;
  readonly revision: number;
  /** Short code used instead of the name; unique. */
  readonly code: string;
  readonly givenName: string;
  readonly familyName: string;
  /** `YYYY-MM-DD`. */
  readonly birthDate?: string;
  readonly sex?: (typeof sexes)[number];
  readonly notes: string;
  readonly active: boolean;
}

type PersonFields = Omit<Person, 'id' | 'revision'>;

/** A person to add; `notes` is empty and `active` true unless given. */
export type NewPerson = Omit<PersonFields, 'notes' | 'active'> & Partial<Pick<PersonFields, 'notes' | 'active'>>;

export interface PersonFilter {
  /** Words that all must appear in name or code; case and accents do not matter. */
  readonly text?: string;
  readonly squad?: string;
  readonly active?: boolean;
}

export interface PersonRepository {
  add(person: NewPerson, actor: Actor): Promise<Person>;
  change(id: string, changes: Changes<PersonFields>, actor: Actor, options?: ChangeOptions): Promise<Person>;
  get(id: string): Promise<Person | undefined>;
  /** Those of these ids that exist, in any order. */
  getMany(ids: readonly string[]): Promise<Person[]>;
  byCode(code: string): Promise<Person | undefined>;
  /** By family name, given name, code; case and accents do not matter. */
  list(filter?: PersonFilter): Promise<Person[]>;
}

const table: RecordTable<Person> = {
  kind: 'person',
  read: async ({ db }, id) => {
    const row = await db.selectFrom('people').selectAll().where('id', '=', id).executeTakeFirst();
    return row && toPerson(row);
  },
  check: (person) => {
    filled('code', person.code);
    short('givenName', person.givenName);
    short('familyName', person.familyName);
    if (person.birthDate !== undefined) day('birthDate', person.birthDate);
    if (person.sex !== undefined) oneOf('sex', person.sex, sexes);
  },
  insert: async ({ db }, person) => {
    await db.insertInto('people').values(toRow(person)).execute();
  },
  update: async ({ db }, person) => {
    const { id, ...row } = toRow(person);
    await db.updateTable('people').set(row).where('id', '=', id).execute();
  },
};

export function personRepository(scope: Scope): PersonRepository {
  return {
    add: (person, actor) =>
      addRecord(scope, table, { notes: '', active: true, ...person, id: scope.ids.next(), revision: 1 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    async get(id) {
      const row = await scope.db.selectFrom('people').selectAll().where('id', '=', id).executeTakeFirst();
      return row && toPerson(row);
    },
    async getMany(ids) {
      const rows = await inPieces(ids, (piece) =>
        scope.db.selectFrom('people').selectAll().where('id', 'in', piece).execute(),
      );
      return rows.map(toPerson);
    },
    async byCode(code) {
      const row = await scope.db.selectFrom('people').selectAll().where('code', '=', code).executeTakeFirst();
      return row && toPerson(row);
    },
    async list(filter = {}) {
      let query = scope.db.selectFrom('people').selectAll('people').orderBy('searchKey').orderBy('code');
      for (const word of searchWords(filter.text ?? '')) {
        query = query.where(sql<boolean>`search_key like ${containing(word)} escape '\\'`);
      }
      if (filter.active !== undefined) query = query.where('active', '=', filter.active ? 1 : 0);
      if (filter.squad !== undefined) {
        const squad = filter.squad;
        query = query.where('people.id', 'in', (members) =>
          members.selectFrom('squadMembers').select('personId').where('squadId', '=', squad),
        );
      }
      return (await query.execute()).map(toPerson);
    },
  };
}

function toRow(person: Person): PersonRow {
  return {
    id: person.id,
    revision: person.revision,
    code: person.code,
    givenName: person.givenName,
    familyName: person.familyName,
    birthDate: person.birthDate ?? null,
    sex: person.sex ?? null,
    notes: person.notes,
    active: person.active ? 1 : 0,
    searchKey: fold(`${person.familyName} ${person.givenName} ${person.code}`),
  };
}

export function toPerson(row: PersonRow): Person {
  return {
    id: row.id,
    revision: row.revision,
    code: row.code,
    givenName: row.givenName,
    familyName: row.familyName,
    ...(row.birthDate === null ? {} : { birthDate: row.birthDate }),
    ...(row.sex === null ? {} : { sex: row.sex as (typeof sexes)[number] }),
    notes: row.notes,
    active: row.active === 1,
  };
}
