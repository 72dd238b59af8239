import type { UtcInstant } from '@sthene/core';
import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { VideoRow } from '../database.ts';
import type { FileStore } from '../files/file-store.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { filled, finite, hash, instant, oneOf, id as recordId, wholeNumber } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

export const videoStates = ['receiving', 'stored', 'dropped', 'unreadable'] as const;

/** A film of an effort. Its file lies under its hash; once dropped the row stays and says so. */
export interface Video {
  readonly id: string;
  readonly revision: number;
  readonly rig: string;
  /** Who was on the rig when it was filmed. */
  readonly person: string;
  readonly entry?: string;
  /** Absent until its effort is known. */
  readonly trial?: string;
  readonly device: string;
  readonly state: (typeof videoStates)[number];
  readonly filmedAt: UtcInstant;
  readonly mediaType: string;
  /** SHA-256 of the seekable file; also kept once that is gone. */
  readonly sha256?: string;
  readonly byteCount: number;
  /** Frame times, clocks, size of the picture, by name. */
  readonly facts: Readonly<Record<string, unknown>>;
  /** Seconds by which it was moved against its curve by hand. */
  readonly nudge: number;
  readonly droppedAt?: UtcInstant;
}

type VideoFields = Omit<Video, 'id' | 'revision'>;

/** A video to begin, under the id its device gave it. */
export type NewVideo = Pick<Video, 'id' | 'rig' | 'person' | 'device' | 'filmedAt' | 'mediaType' | 'facts'> & {
  readonly entry?: string;
};

export interface VideoRepository {
  /** Throws `already-there` when the id is taken. */
  add(video: NewVideo, actor: Actor): Promise<Video>;
  change(
    id: string,
    changes: Changes<VideoFields>,
    actor: Actor,
    options?: ChangeOptions & { readonly action?: string },
  ): Promise<Video>;
  /**
   * Marks it dropped, with the reason in its history, then removes the file where nothing else is the same bytes. A crash between
   * the two leaves a file that `recordings.verify` lists as unreferenced; dropping again removes it. Throws `not-found`.
   */
  drop(id: string, reason: string, actor: Actor): Promise<Video>;
  get(id: string): Promise<Video | undefined>;
  /** By the time of filming. */
  ofTrial(trial: string): Promise<Video[]>;
  /** By the time of filming; `before` leaves out those filmed at or after it, `trial: 'none'` those whose effort is known. */
  list(filter: {
    readonly state: Video['state'];
    readonly before?: UtcInstant;
    readonly trial?: 'none';
  }): Promise<Video[]>;
}

const shape: RecordShape<Video, 'videos'> = {
  kind: 'video',
  table: 'videos',
  check: (video) => {
    recordId('id', video.id);
    filled('device', video.device);
    filled('mediaType', video.mediaType);
    oneOf('state', video.state, videoStates);
    instant('filmedAt', video.filmedAt);
    if (video.sha256 !== undefined) hash('sha256', video.sha256);
    if (video.droppedAt !== undefined) instant('droppedAt', video.droppedAt);
    wholeNumber('byteCount', video.byteCount);
    finite('nudge', video.nudge);
  },
  toRow: (video): VideoRow => ({
    id: video.id,
    revision: video.revision,
    rigId: video.rig,
    personId: video.person,
    entryId: video.entry ?? null,
    trialId: video.trial ?? null,
    device: video.device,
    state: video.state,
    filmedAt: video.filmedAt,
    mediaType: video.mediaType,
    sha256: video.sha256 ?? null,
    byteCount: video.byteCount,
    facts: toJson(video.facts),
    nudge: video.nudge,
    droppedAt: video.droppedAt ?? null,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    rig: row.rigId,
    person: row.personId,
    ...(row.entryId === null ? {} : { entry: row.entryId }),
    ...(row.trialId === null ? {} : { trial: row.trialId }),
    device: row.device,
    state: row.state as Video['state'],
    filmedAt: row.filmedAt as UtcInstant,
    mediaType: row.mediaType,
    ...(row.sha256 === null ? {} : { sha256: row.sha256 }),
    byteCount: row.byteCount,
    facts: fromJson<Record<string, unknown>>(row.facts),
    nudge: row.nudge,
    ...(row.droppedAt === null ? {} : { droppedAt: row.droppedAt as UtcInstant }),
  }),
};

export function videoRepository(scope: Scope, files: FileStore): VideoRepository {
  const table = recordTable(shape);
  const all = () => scope.db.selectFrom('videos').selectAll().orderBy('filmedAt').orderBy('id');
  /** Whether a recording, a received table, or a video that is still there, is the same bytes. */
  const isUsed = async (sha256: string): Promise<boolean> => {
    const [recording, video, table] = await Promise.all([
      scope.db
        .selectFrom('recordings')
        .select('sha256')
        .where((is) => is.or([is('sha256', '=', sha256), is('nativeSha256', '=', sha256)]))
        .executeTakeFirst(),
      scope.db
        .selectFrom('videos')
        .select('id')
        .where('sha256', '=', sha256)
        .where('state', '=', 'stored')
        .executeTakeFirst(),
      scope.db.selectFrom('receivedImports').select('id').where('fileSha256', '=', sha256).executeTakeFirst(),
    ]);
    return recording !== undefined || video !== undefined || table !== undefined;
  };
  return {
    add: (video, actor) =>
      addRecord(scope, table, { ...video, revision: 1, state: 'receiving', byteCount: 0, nudge: 0 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    async drop(id, reason, actor) {
      const before = await readRecord(scope.db, shape, id);
      const dropped =
        before?.state === 'dropped'
          ? before
          : await changeRecord(
              scope,
              table,
              id,
              { state: 'dropped', droppedAt: instant('clock', scope.clock.now()) },
              actor,
              { action: 'video.drop', reason },
            );
      if (dropped.sha256 !== undefined && !(await isUsed(dropped.sha256))) await files.remove(dropped.sha256);
      return dropped;
    },
    get: (id) => readRecord(scope.db, shape, id),
    ofTrial: async (trial) => (await all().where('trialId', '=', trial).execute()).map(shape.fromRow),
    async list({ state, before, trial }) {
      let query = all().where('state', '=', state);
      if (before !== undefined) query = query.where('filmedAt', '<', before);
      if (trial === 'none') query = query.where('trialId', 'is', null);
      return (await query.execute()).map(shape.fromRow);
    },
  };
}
