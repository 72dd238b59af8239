import type { UtcInstant } from '@sthene/core';
import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { CaptureRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { instant, oneOf, id as recordId, wholeNumber } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

export const captureStates = ['running', 'closed', 'recovered', 'damaged'] as const;

/** One run of a rig from opening to closing, and where its journals lie. One that runs at start was cut off. */
export interface Capture {
  readonly id: string;
  readonly revision: number;
  readonly rig: string;
  readonly day?: string;
  readonly state: (typeof captureStates)[number];
  readonly startedAt: UtcInstant;
  readonly endedAt?: UtcInstant;
  /** Folders inside the data folder, one a source. */
  readonly journals: readonly string[];
  readonly samples: number;
  readonly missing: number;
  /** What recovery kept and lost, in words. */
  readonly words: string;
}

type CaptureFields = Omit<Capture, 'id' | 'revision'>;

/** A capture to add. Its id may be given, because the journal's folder is named after it before the record exists. */
export type NewCapture = Pick<CaptureFields, 'rig' | 'startedAt' | 'journals'> & {
  readonly id?: string;
  readonly day?: string;
};

export interface CaptureRepository {
  add(capture: NewCapture, actor: Actor): Promise<Capture>;
  change(id: string, changes: Changes<CaptureFields>, actor: Actor, options?: ChangeOptions): Promise<Capture>;
  get(id: string): Promise<Capture | undefined>;
  /** Oldest first. */
  list(filter?: { readonly state?: Capture['state']; readonly day?: string }): Promise<Capture[]>;
}

const shape: RecordShape<Capture, 'captures'> = {
  kind: 'capture',
  table: 'captures',
  check: (capture) => {
    recordId('id', capture.id);
    oneOf('state', capture.state, captureStates);
    instant('startedAt', capture.startedAt);
    if (capture.endedAt !== undefined) instant('endedAt', capture.endedAt);
    wholeNumber('samples', capture.samples);
    wholeNumber('missing', capture.missing);
  },
  toRow: (capture): CaptureRow => ({
    id: capture.id,
    revision: capture.revision,
    rigId: capture.rig,
    dayId: capture.day ?? null,
    state: capture.state,
    startedAt: capture.startedAt,
    endedAt: capture.endedAt ?? null,
    journals: toJson(capture.journals),
    samples: capture.samples,
    missing: capture.missing,
    words: capture.words,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    rig: row.rigId,
    ...(row.dayId === null ? {} : { day: row.dayId }),
    state: row.state as Capture['state'],
    startedAt: row.startedAt as UtcInstant,
    ...(row.endedAt === null ? {} : { endedAt: row.endedAt as UtcInstant }),
    journals: fromJson<string[]>(row.journals),
    samples: row.samples,
    missing: row.missing,
    words: row.words,
  }),
};

export function captureRepository(scope: Scope): CaptureRepository {
  const table = recordTable(shape);
  return {
    add: (capture, actor) =>
      addRecord(
        scope,
        table,
        {
          state: 'running',
          samples: 0,
          missing: 0,
          words: '',
          ...capture,
          id: capture.id ?? scope.ids.next(),
          revision: 1,
        },
        actor,
      ),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readRecord(scope.db, shape, id),
    async list(filter = {}) {
      let query = scope.db.selectFrom('captures').selectAll().orderBy('startedAt').orderBy('id');
      if (filter.state !== undefined) query = query.where('state', '=', filter.state);
      if (filter.day !== undefined) query = query.where('dayId', '=', filter.day);
      return (await query.execute()).map(shape.fromRow);
    },
  };
}
