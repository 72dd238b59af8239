import type { UtcInstant } from '@sthene/core';
import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { DayRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { day as calendarDay, instant, oneOf, short } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

export const dayStatuses = ['planned', 'open', 'closed'] as const;

/** A test day. `P` is the plan of one test, `S` the day's settings, as the caller defines them. */
export interface TestDay<P = unknown, S = unknown> {
  readonly id: string;
  readonly revision: number;
  /** `YYYY-MM-DD`. */
  readonly date: string;
  readonly title: string;
  readonly status: (typeof dayStatuses)[number];
  readonly plans: readonly P[];
  /** Ids of the rigs in use. */
  readonly rigs: readonly string[];
  readonly settings: S;
  readonly notes: string;
  readonly openedAt?: UtcInstant;
  readonly closedAt?: UtcInstant;
}

type DayFields = Omit<TestDay, 'id' | 'revision'>;

export interface DayRepository {
  add(day: Omit<DayFields, 'status' | 'openedAt' | 'closedAt'>, actor: Actor): Promise<TestDay>;
  change(id: string, changes: Changes<DayFields>, actor: Actor, options?: ChangeOptions): Promise<TestDay>;
  get(id: string): Promise<TestDay | undefined>;
  /** Newest first. */
  list(): Promise<TestDay[]>;
}

const shape: RecordShape<TestDay, 'days'> = {
  kind: 'day',
  table: 'days',
  check: (day) => {
    calendarDay('date', day.date);
    short('title', day.title);
    oneOf('status', day.status, dayStatuses);
    if (day.openedAt !== undefined) instant('openedAt', day.openedAt);
    if (day.closedAt !== undefined) instant('closedAt', day.closedAt);
  },
  toRow: (day): DayRow => ({
    id: day.id,
    revision: day.revision,
    date: day.date,
    title: day.title,
    status: day.status,
    plans: toJson(day.plans),
    rigs: toJson(day.rigs),
    settings: toJson(day.settings),
    notes: day.notes,
    openedAt: day.openedAt ?? null,
    closedAt: day.closedAt ?? null,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    date: row.date,
    title: row.title,
    status: row.status as TestDay['status'],
    plans: fromJson<unknown[]>(row.plans),
    rigs: fromJson<string[]>(row.rigs),
    settings: fromJson<unknown>(row.settings),
    notes: row.notes,
    ...(row.openedAt === null ? {} : { openedAt: row.openedAt as UtcInstant }),
    ...(row.closedAt === null ? {} : { closedAt: row.closedAt as UtcInstant }),
  }),
};

export function dayRepository(scope: Scope): DayRepository {
  const table = recordTable(shape);
  return {
    add: (day, actor) =>
      addRecord(scope, table, { ...day, status: 'planned', id: scope.ids.next(), revision: 1 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readRecord(scope.db, shape, id),
    list: async () =>
      (await scope.db.selectFrom('days').selectAll().orderBy('date', 'desc').orderBy('id', 'desc').execute()).map(
        shape.fromRow,
      ),
  };
}
