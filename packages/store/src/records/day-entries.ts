import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { DayEntryRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { filled, finite, oneOf } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';
import type { Setup } from './session.ts';

/** What is kept of an entry's state; the rest (on the rig, resting) follows from the moment. */
export const entryStates = ['planned', 'warming-up', 'left', 'done', 'removed'] as const;

/** One person with one test in a day's running order. */
export interface DayEntry<R = unknown, E = unknown> {
  readonly id: string;
  readonly revision: number;
  readonly day: string;
  readonly person: string;
  /** Order on the day; any number, so that one entry can be put between two others. */
  readonly position: number;
  readonly test: string;
  readonly walkIn: boolean;
  readonly state: (typeof entryStates)[number];
  readonly fixedRig?: string;
  /** Answers of the readiness questions. */
  readonly readiness?: R;
  readonly setup: Setup;
  /** Efforts still to be done, where they are not what the plan says. */
  readonly remaining?: readonly E[];
  /** The session its trials are kept in, from the first one on. */
  readonly session?: string;
  readonly notes: string;
}

type EntryFields = Omit<DayEntry, 'id' | 'revision'>;

export type NewDayEntry = Pick<EntryFields, 'day' | 'person' | 'position' | 'test' | 'walkIn'> & Partial<EntryFields>;

export interface DayEntryRepository {
  add(entry: NewDayEntry, actor: Actor): Promise<DayEntry>;
  change(id: string, changes: Changes<EntryFields>, actor: Actor, options?: ChangeOptions): Promise<DayEntry>;
  get(id: string): Promise<DayEntry | undefined>;
  /** In their order; removed ones are left out unless they are asked for too. */
  ofDay(day: string, also?: { readonly removed: true }): Promise<DayEntry[]>;
}

const shape: RecordShape<DayEntry, 'dayEntries'> = {
  kind: 'entry',
  table: 'dayEntries',
  check: (entry) => {
    finite('position', entry.position);
    filled('test', entry.test);
    oneOf('state', entry.state, entryStates);
  },
  toRow: (entry): DayEntryRow => ({
    id: entry.id,
    revision: entry.revision,
    dayId: entry.day,
    personId: entry.person,
    position: entry.position,
    test: entry.test,
    walkIn: entry.walkIn ? 1 : 0,
    state: entry.state,
    fixedRig: entry.fixedRig ?? null,
    readiness: entry.readiness === undefined ? null : toJson(entry.readiness),
    setup: toJson(entry.setup),
    remaining: entry.remaining === undefined ? null : toJson(entry.remaining),
    sessionId: entry.session ?? null,
    notes: entry.notes,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    day: row.dayId,
    person: row.personId,
    position: row.position,
    test: row.test,
    walkIn: row.walkIn === 1,
    state: row.state as DayEntry['state'],
    ...(row.fixedRig === null ? {} : { fixedRig: row.fixedRig }),
    ...(row.readiness === null ? {} : { readiness: fromJson<unknown>(row.readiness) }),
    setup: fromJson<Setup>(row.setup),
    ...(row.remaining === null ? {} : { remaining: fromJson<unknown[]>(row.remaining) }),
    ...(row.sessionId === null ? {} : { session: row.sessionId }),
    notes: row.notes,
  }),
};

export function dayEntryRepository(scope: Scope): DayEntryRepository {
  const table = recordTable(shape);
  return {
    add: (entry, actor) =>
      addRecord(
        scope,
        table,
        { state: 'planned', setup: {}, notes: '', ...entry, id: scope.ids.next(), revision: 1 },
        actor,
      ),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readRecord(scope.db, shape, id),
    async ofDay(day, also) {
      const ofDay = scope.db.selectFrom('dayEntries').selectAll().where('dayId', '=', day);
      const asked = also?.removed === true ? ofDay : ofDay.where('state', '<>', 'removed');
      const rows = await asked.orderBy('position').orderBy('id').execute();
      return rows.map(shape.fromRow);
    },
  };
}
