import type { UtcInstant } from '@sthene/core';
import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { BlindReadingRow, BlindStudyRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import { inTransaction, type Scope } from '../scope.ts';
import { filled, finite, instant, oneOf } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

/** A sample of trials that two people read without seeing what the method says. */
export interface BlindStudy {
  readonly id: string;
  readonly revision: number;
  readonly title: string;
  /** Ids in the order in which they are shown. */
  readonly trials: readonly string[];
  /** Names of those who read; a reading names one by its place here. */
  readonly readers: readonly string[];
  readonly createdAt: UtcInstant;
  /** Once closed nothing is read any more, and the comparison is shown. */
  readonly closed: boolean;
}

/** What one reader said of one trial. */
export interface BlindReading {
  readonly id: string;
  readonly revision: number;
  readonly study: string;
  readonly trial: string;
  readonly reader: number;
  /** Sample index of the onset within the trial's forces; absent: none can be seen. */
  readonly onset?: number;
  readonly verdict: 'counts' | 'look-again' | 'repeat';
  readonly readAt: UtcInstant;
}

export interface BlindStudyRepository {
  add(study: Pick<BlindStudy, 'title' | 'trials' | 'readers'>, actor: Actor): Promise<BlindStudy>;
  change(
    id: string,
    changes: Changes<Pick<BlindStudy, 'title' | 'closed'>>,
    actor: Actor,
    options?: ChangeOptions,
  ): Promise<BlindStudy>;
  get(id: string): Promise<BlindStudy | undefined>;
  /** Newest first. */
  list(): Promise<BlindStudy[]>;
  /** Keeps a reading; a second one of the same reader and trial takes the place of the first, whose revision stays. */
  read(reading: Omit<BlindReading, 'id' | 'revision' | 'readAt'>, actor: Actor): Promise<BlindReading>;
  readings(study: string): Promise<BlindReading[]>;
}

const studies: RecordShape<BlindStudy, 'blindStudies'> = {
  kind: 'blind-study',
  table: 'blindStudies',
  check: (study) => {
    filled('title', study.title);
    if (study.trials.length === 0 || new Set(study.trials).size !== study.trials.length)
      throw new StoreError('bad-value', 'A study needs trials, each once.', { field: 'trials' });
    if (study.readers.length < 2) throw new StoreError('bad-value', 'A study needs two readers.', { field: 'readers' });
    for (const name of study.readers) filled('readers', name);
    instant('createdAt', study.createdAt);
  },
  toRow: (study): BlindStudyRow => ({
    id: study.id,
    revision: study.revision,
    title: study.title,
    trials: toJson(study.trials),
    readers: toJson(study.readers),
    createdAt: study.createdAt,
    closed: study.closed ? 1 : 0,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    title: row.title,
    trials: fromJson<string[]>(row.trials),
    readers: fromJson<string[]>(row.readers),
    createdAt: row.createdAt as UtcInstant,
    closed: row.closed === 1,
  }),
};

const readings: RecordShape<BlindReading, 'blindReadings'> = {
  kind: 'blind-reading',
  table: 'blindReadings',
  check: (reading) => {
    if (reading.onset !== undefined) finite('onset', reading.onset);
    oneOf('verdict', reading.verdict, ['counts', 'look-again', 'repeat'] as const);
    instant('readAt', reading.readAt);
  },
  toRow: (reading): BlindReadingRow => ({
    id: reading.id,
    revision: reading.revision,
    studyId: reading.study,
    trialId: reading.trial,
    reader: reading.reader,
    onset: reading.onset ?? null,
    verdict: reading.verdict,
    readAt: reading.readAt,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    study: row.studyId,
    trial: row.trialId,
    reader: row.reader,
    ...(row.onset === null ? {} : { onset: row.onset }),
    verdict: row.verdict as BlindReading['verdict'],
    readAt: row.readAt as UtcInstant,
  }),
};

export function blindStudyRepository(scope: Scope): BlindStudyRepository {
  const [studyTable, readingTable] = [recordTable(studies), recordTable(readings)];
  const now = () => instant('clock', scope.clock.now());
  return {
    add: (study, actor) =>
      addRecord(
        scope,
        studyTable,
        { ...study, closed: false, createdAt: now(), id: scope.ids.next(), revision: 1 },
        actor,
      ),
    change: (id, changes, actor, options) => changeRecord(scope, studyTable, id, changes, actor, options),
    get: (id) => readRecord(scope.db, studies, id),
    async list() {
      const rows = await scope.db.selectFrom('blindStudies').selectAll().orderBy('createdAt', 'desc').execute();
      return rows.map(studies.fromRow);
    },
    read: (reading, actor) =>
      inTransaction(scope, async (inner) => {
        const study = await readRecord(inner.db, studies, reading.study);
        if (study === undefined) throw new StoreError('not-found', 'There is no such study.', { kind: 'blind-study' });
        if (study.closed) throw new StoreError('bad-value', 'This study is closed.', { field: 'study' });
        if (!study.trials.includes(reading.trial) || study.readers[reading.reader] === undefined)
          throw new StoreError('bad-value', 'The study has no such trial or reader.', { field: 'trial' });
        const before = await inner.db
          .selectFrom('blindReadings')
          .selectAll()
          .where('studyId', '=', reading.study)
          .where('reader', '=', reading.reader)
          .where('trialId', '=', reading.trial)
          .executeTakeFirst();
        const said = { ...reading, readAt: now() };
        return before === undefined
          ? addRecord(inner, readingTable, { ...said, id: scope.ids.next(), revision: 1 }, actor)
          : changeRecord(inner, readingTable, before.id, { ...said, onset: reading.onset }, actor);
      }),
    async readings(study) {
      const rows = await scope.db
        .selectFrom('blindReadings')
        .selectAll()
        .where('studyId', '=', study)
        .orderBy('reader')
        .orderBy('readAt')
        .orderBy('id')
        .execute();
      return rows.map(readings.fromRow);
    },
  };
}
