import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { AthleteNoteRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { day, filled, finite, oneOf } from '../values.ts';
import { gateLimbs } from './gates.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

export const athleteNoteKinds = ['remark', 'injury', 'target', 'position'] as const;

/**
 * Something written down of an athlete: a remark; an injury with its day and limb, as it was told (nobody diagnoses here); a value to
 * reach; the place in the boat or team. Taken back by `active`, never removed.
 */
export interface AthleteNote {
  readonly id: string;
  readonly revision: number;
  readonly person: string;
  readonly kind: (typeof athleteNoteKinds)[number];
  /** `YYYY-MM-DD`: the day it is of, or the first day on which it holds. */
  readonly from: string;
  /** Last day on which it holds; of a target the day it is set for. */
  readonly until?: string;
  readonly text: string;
  /** Of an injury, and only of one. */
  readonly limb?: (typeof gateLimbs)[number];
  /** A test's id; of a target or injury absent for any. */
  readonly test?: string;
  /** Of a target, and only of one: what to reach, in the unit beside it. */
  readonly target?: { readonly metric: string; readonly value: number; readonly unit: string };
  readonly active: boolean;
}

type NoteFields = Omit<AthleteNote, 'id' | 'revision'>;

export interface AthleteNoteRepository {
  add(note: Omit<NoteFields, 'active'>, actor: Actor): Promise<AthleteNote>;
  change(id: string, changes: Changes<NoteFields>, actor: Actor, options?: ChangeOptions): Promise<AthleteNote>;
  get(id: string): Promise<AthleteNote | undefined>;
  /** Those in force, by day; all of them, or of one person or one kind. */
  list(filter?: { readonly person?: string; readonly kind?: AthleteNote['kind'] }): Promise<AthleteNote[]>;
}

const shape: RecordShape<AthleteNote, 'athleteNotes'> = {
  kind: 'note',
  table: 'athleteNotes',
  check: (note) => {
    oneOf('kind', note.kind, athleteNoteKinds);
    day('from', note.from);
    if (note.until !== undefined) day('until', note.until);
    if ((note.kind === 'injury') !== (note.limb !== undefined))
      throw new StoreError('bad-value', 'An injury, and nothing else, has a limb.', { field: 'limb' });
    if (note.limb !== undefined) oneOf('limb', note.limb, gateLimbs);
    if ((note.kind === 'target') !== (note.target !== undefined))
      throw new StoreError('bad-value', 'A target, and nothing else, has a value.', { field: 'target' });
    if (note.target !== undefined) {
      filled('target.metric', note.target.metric);
      filled('target.unit', note.target.unit);
      finite('target.value', note.target.value);
    } else if (note.kind !== 'injury') filled('text', note.text);
    if (note.test !== undefined) filled('test', note.test);
  },
  toRow: (note): AthleteNoteRow => ({
    id: note.id,
    revision: note.revision,
    personId: note.person,
    kind: note.kind,
    fromDay: note.from,
    untilDay: note.until ?? null,
    text: note.text,
    limb: note.limb ?? null,
    test: note.test ?? null,
    metric: note.target?.metric ?? null,
    value: note.target?.value ?? null,
    unit: note.target?.unit ?? null,
    active: note.active ? 1 : 0,
  }),
  fromRow: ({ metric, value, unit, ...row }) => ({
    id: row.id,
    revision: row.revision,
    person: row.personId,
    kind: row.kind as AthleteNote['kind'],
    from: row.fromDay,
    ...(row.untilDay === null ? {} : { until: row.untilDay }),
    text: row.text,
    ...(row.limb === null ? {} : { limb: row.limb as (typeof gateLimbs)[number] }),
    ...(row.test === null ? {} : { test: row.test }),
    ...(metric === null || value === null || unit === null ? {} : { target: { metric, value, unit } }),
    active: row.active === 1,
  }),
};

export function athleteNoteRepository(scope: Scope): AthleteNoteRepository {
  const table = recordTable(shape);
  return {
    add: (note, actor) => addRecord(scope, table, { ...note, active: true, id: scope.ids.next(), revision: 1 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readRecord(scope.db, shape, id),
    async list({ person, kind } = {}) {
      let query = scope.db.selectFrom('athleteNotes').selectAll().where('active', '=', 1);
      if (person !== undefined) query = query.where('personId', '=', person);
      if (kind !== undefined) query = query.where('kind', '=', kind);
      return (await query.orderBy('fromDay').orderBy('id').execute()).map(shape.fromRow);
    },
  };
}
