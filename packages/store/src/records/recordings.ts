import type { UtcInstant } from '@sthene/core';
import type { RecordingRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import type { Bytes, FileStore } from '../files/file-store.ts';
import type { Actor } from '../ports.ts';
import { type Scope, write } from '../scope.ts';
import { filled, hash, positive, wholeNumber, written } from '../values.ts';

/** A recording's file and what it is. The id is the SHA-256 of the original file, byte for byte. */
export interface StoredRecording {
  readonly sha256: string;
  /** As the source called it; for people to read, never a path of ours. */
  readonly fileName: string;
  readonly byteCount: number;
  readonly mediaType: string;
  readonly format: string;
  /** Hz. */
  readonly sampleRate: number;
  readonly sampleCount: number;
  readonly importedAt: UtcInstant;
  /** SHA-256 of the file in our own form, where one was made from the original. */
  readonly native?: string;
}

/** A recording to keep. */
export interface NewRecording {
  readonly bytes: Bytes;
  readonly fileName: string;
  readonly mediaType: string;
  readonly format: string;
  readonly sampleRate: number;
  readonly sampleCount: number;
  /** The same recording in our own form, where it was converted. */
  readonly native?: Bytes;
}

/** A recording the table and the files do not agree on. */
export interface FileProblem {
  readonly sha256: string;
  /** `unreferenced` files are harmless: a crash between file and record leaves one. */
  readonly problem: 'missing' | 'damaged' | 'unreferenced';
}

export interface RecordingRepository {
  /** Keeps the file, then the record. `duplicate`: the same bytes were there before, and the earlier record is returned. */
  add(recording: NewRecording, actor: Actor): Promise<{ recording: StoredRecording; duplicate: boolean }>;
  get(sha256: string): Promise<StoredRecording | undefined>;
  /** The original file; undefined when there is no such recording. Throws `file-damaged` when its bytes are not its hash. */
  bytes(sha256: string): Promise<Uint8Array | undefined>;
  /** By time of import, newest first. */
  list(): Promise<StoredRecording[]>;
  /** Reads and hashes every file, those of videos and of received tables too, and compares with the tables; empty when all is there and whole. */
  verify(): Promise<FileProblem[]>;
}

export function recordingRepository(scope: Scope, files: FileStore): RecordingRepository {
  const read = async (db: Scope['db'], sha256: string) => {
    const row = await db.selectFrom('recordings').selectAll().where('sha256', '=', sha256).executeTakeFirst();
    return row && toRecording(row);
  };
  return {
    async add(recording, actor) {
      written('fileName', recording.fileName);
      filled('format', recording.format);
      positive('sampleRate', recording.sampleRate);
      wholeNumber('sampleCount', recording.sampleCount);
      // The file first: a record without its file would be a loss, a file without its record is only a spare.
      const file = await files.put(recording.bytes, extensionOf(recording.fileName));
      const native = recording.native && (await files.put(recording.native, 'parquet'));
      return write(scope, actor, async ({ db, at, note, unchanged }) => {
        const earlier = await read(db, file.sha256);
        if (earlier !== undefined) {
          unchanged();
          return { recording: earlier, duplicate: true };
        }
        const row: RecordingRow = {
          sha256: file.sha256,
          fileName: recording.fileName,
          byteCount: wholeNumber('byteCount', file.byteCount),
          mediaType: recording.mediaType,
          formatId: recording.format,
          sampleRate: recording.sampleRate,
          sampleCount: recording.sampleCount,
          importedAt: at,
          nativeSha256: native?.sha256 ?? null,
        };
        await db.insertInto('recordings').values(row).execute();
        await note({
          action: 'recording.add',
          subject: { kind: 'recording', id: file.sha256 },
          details: { byteCount: file.byteCount, ...(native === undefined ? {} : { native: native.sha256 }) },
        });
        return { recording: toRecording(row), duplicate: false };
      });
    },
    get: (sha256) => read(scope.db, hash('recording', sha256)),
    async bytes(sha256) {
      const known = await read(scope.db, hash('recording', sha256));
      if (known === undefined) return undefined;
      const bytes = await files.get(sha256);
      if (bytes === undefined) {
        throw new StoreError('file-damaged', 'The file of this recording is missing from the recordings folder.', {
          sha256,
          missing: true,
        });
      }
      return bytes;
    },
    async list() {
      const rows = await scope.db
        .selectFrom('recordings')
        .selectAll()
        .orderBy('importedAt', 'desc')
        .orderBy('sha256')
        .execute();
      return rows.map(toRecording);
    },
    async verify() {
      const problems: FileProblem[] = [];
      const expected = new Set<string>();
      for (const row of await scope.db.selectFrom('recordings').select(['sha256', 'nativeSha256']).execute()) {
        expected.add(row.sha256);
        if (row.nativeSha256 !== null) expected.add(row.nativeSha256);
      }
      const films = scope.db.selectFrom('videos').select('sha256').where('state', '=', 'stored');
      for (const { sha256 } of await films.execute()) if (sha256 !== null) expected.add(sha256);
      for (const { fileSha256 } of await scope.db.selectFrom('receivedImports').select('fileSha256').execute())
        expected.add(fileSha256);
      for await (const { sha256, whole } of files.verify()) {
        if (!whole) problems.push({ sha256, problem: 'damaged' });
        else if (!expected.has(sha256)) problems.push({ sha256, problem: 'unreferenced' });
        expected.delete(sha256);
      }
      for (const sha256 of expected) problems.push({ sha256, problem: 'missing' });
      return problems;
    },
  };
}

/** Ending of a file name where it is a short plain one; anything else could be meant to lead elsewhere. */
export function extensionOf(fileName: string): string {
  return /\.([A-Za-z0-9]{1,8})$/.exec(fileName)?.[1]?.toLowerCase() ?? 'bin';
}

export function toRecording(row: RecordingRow): StoredRecording {
  return {
    sha256: row.sha256,
    fileName: row.fileName,
    byteCount: row.byteCount,
    mediaType: row.mediaType,
    format: row.formatId,
    sampleRate: row.sampleRate,
    sampleCount: row.sampleCount,
    importedAt: row.importedAt as UtcInstant,
    ...(row.nativeSha256 === null ? {} : { native: row.nativeSha256 }),
  };
}
