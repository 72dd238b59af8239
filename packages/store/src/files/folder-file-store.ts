import { join } from 'node:path';
import { StoreError } from '../errors.ts';
import { runningSha256 } from '../hash.ts';
import type { Ids } from '../ports.ts';
import { hash } from '../values.ts';
import type { FilePort } from './file-port.ts';
import type { Bytes, FileStore, KeptFile } from './file-store.ts';
import { nodeFilePort } from './node-file-port.ts';

/** Options of a file store in a folder. */
export interface FolderFileStoreOptions {
  /** The data folder; it must exist. Files lie below it as `recordings/ab/abcdef....ext`. */
  readonly folder: string;
  /** Gives temporary names that no other writer uses. */
  readonly ids: Ids;
  /** The machine's file system unless given. */
  readonly port?: FilePort;
}

/** A file store in a folder can also clear away what crashes left. */
export interface FolderFileStore extends FileStore {
  /** Removes temporary files last changed before an instant (ms since 1970); gives their number. */
  removeAbandoned(before: number): Promise<number>;
}

const keptName = /^([0-9a-f]{64})\.([a-z0-9]{1,8})$/;
const shardName = /^[0-9a-f]{2}$/;

/**
 * Keeps files in a folder of this machine or a shared one.
 *
 * A file is written under a temporary name, synced, renamed and its folder synced, so that a reader sees it whole or not
 * at all, and what was confirmed survives a power cut on a drive that honours sync. Throws `disk-full` or `disk-failed`.
 */
export function folderFileStore(options: FolderFileStoreOptions): FolderFileStore {
  const port = options.port ?? nodeFilePort;
  const root = join(options.folder, 'recordings');
  const incoming = join(root, 'incoming');
  const shardOf = (sha256: string) => join(root, sha256.slice(0, 2));
  // Hashes whose sync failed. A second sync of the same file may report a success that is none, so they are written anew.
  const suspect = new Set<string>();

  const find = async (sha256: string): Promise<KeptFile | undefined> => {
    for (const entry of await port.list(shardOf(hash('file', sha256)))) {
      const kept = toKept(entry);
      if (kept?.sha256 === sha256) return kept;
    }
    return undefined;
  };
  const pathOf = (file: KeptFile) => join(shardOf(file.sha256), `${file.sha256}.${file.extension}`);

  const settle = async (temporary: string, file: KeptFile): Promise<boolean> => {
    const shard = shardOf(file.sha256);
    const earlier = await find(file.sha256);
    if (earlier !== undefined && !suspect.has(file.sha256) && (await isWhole(port, pathOf(earlier), file.sha256))) {
      await port.remove(temporary);
      // Another writer may have renamed it and not yet synced: the promise of `put` is our own to keep.
      await port.syncFile(pathOf(earlier));
      await port.syncFolder(shard);
      return true;
    }
    suspect.add(file.sha256);
    await port.makeFolder(shard);
    await port.syncFolder(root);
    // A damaged or suspect file is replaced under its own name, so that there is never a second one.
    await port.rename(temporary, pathOf(earlier ?? file));
    await port.syncFolder(shard);
    suspect.delete(file.sha256);
    return false;
  };

  return {
    put: (bytes, extension) =>
      withDiskErrors(async () => {
        if (!/^[a-z0-9]{1,8}$/.test(extension)) {
          throw new StoreError('bad-value', 'An extension is one to eight small letters or digits.', {
            field: 'extension',
          });
        }
        await port.makeFolder(root);
        await port.syncFolder(options.folder);
        await port.makeFolder(incoming);
        const temporary = join(incoming, `${options.ids.next()}.part`);
        try {
          const written = await writeWhole(port, temporary, bytes);
          const file = { ...written, extension };
          const duplicate = await settle(temporary, file);
          return {
            ...file,
            extension: (duplicate ? await find(file.sha256) : file)?.extension ?? extension,
            duplicate,
          };
        } catch (error) {
          // Best effort; what stays is only a temporary file. The first error is the one to report.
          await port.remove(temporary).catch(() => {});
          throw error;
        }
      }),
    get: (sha256) =>
      withDiskErrors(async () => {
        const file = await find(sha256);
        const pieces = file && (await port.read(pathOf(file)));
        if (pieces === undefined) return undefined;
        const sum = runningSha256();
        const parts: Uint8Array[] = [];
        for await (const piece of pieces) {
          sum.update(piece);
          parts.push(piece);
        }
        if (sum.hex() !== sha256) {
          throw new StoreError('file-damaged', 'A kept file no longer has the content it was kept with.', { sha256 });
        }
        return joined(parts);
      }),
    open: (sha256) =>
      withDiskErrors(async () => {
        const file = await find(sha256);
        return file && { ...file, pieces: (range) => withDiskErrors(() => port.read(pathOf(file), range)) };
      }),
    remove: (sha256) =>
      withDiskErrors(async () => {
        const file = await find(sha256);
        if (file === undefined) return false;
        await port.remove(pathOf(file));
        await port.syncFolder(shardOf(sha256));
        return true;
      }),
    has: (sha256) => withDiskErrors(async () => (await find(sha256)) !== undefined),
    list: () => listKept(port, root),
    async *verify() {
      for await (const file of listKept(port, root)) {
        yield { ...file, whole: await isWhole(port, pathOf(file), file.sha256) };
      }
    },
    removeAbandoned: (before) =>
      withDiskErrors(async () => {
        let removed = 0;
        for (const entry of await port.list(incoming)) {
          if (entry.kind !== 'file' || !entry.name.endsWith('.part') || entry.changedAt >= before) continue;
          await port.remove(join(incoming, entry.name));
          removed += 1;
        }
        return removed;
      }),
  };
}

async function writeWhole(port: FilePort, path: string, bytes: Bytes): Promise<{ sha256: string; byteCount: number }> {
  const sum = runningSha256();
  let byteCount = 0;
  const file = await port.create(path);
  try {
    for await (const piece of bytes instanceof Uint8Array ? [bytes] : bytes) {
      sum.update(piece);
      byteCount += piece.byteLength;
      await file.write(piece);
    }
    await file.sync();
  } catch (error) {
    await file.close().catch(() => {});
    throw error;
  }
  await file.close();
  return { sha256: sum.hex(), byteCount };
}

async function isWhole(port: FilePort, path: string, sha256: string): Promise<boolean> {
  const pieces = await port.read(path);
  if (pieces === undefined) return false;
  const sum = runningSha256();
  for await (const piece of pieces) sum.update(piece);
  return sum.hex() === sha256;
}

async function* listKept(port: FilePort, root: string): AsyncIterable<KeptFile> {
  const shards = (await port.list(root)).filter((entry) => entry.kind === 'folder' && shardName.test(entry.name));
  for (const shard of shards.map((entry) => entry.name).sort()) {
    const files = (await port.list(join(root, shard))).flatMap((entry) => toKept(entry) ?? []);
    files.sort((a, b) => (a.sha256 < b.sha256 ? -1 : 1));
    yield* files.filter((file) => file.sha256.startsWith(shard));
  }
}

function toKept(entry: { name: string; kind: string; byteCount: number }): KeptFile | undefined {
  const [, sha256, extension] = keptName.exec(entry.name) ?? [];
  if (entry.kind !== 'file' || sha256 === undefined || extension === undefined) return undefined;
  return { sha256, extension, byteCount: entry.byteCount };
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((total, part) => total + part.byteLength, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.byteLength;
  }
  return whole;
}

async function withDiskErrors<T>(act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    const code = (error as { code?: unknown }).code;
    if (error instanceof StoreError || typeof code !== 'string') throw error;
    if (code === 'ENOSPC' || code === 'EDQUOT') {
      throw new StoreError('disk-full', 'The disk that holds the recordings is full. The file was not kept.', { code });
    }
    throw new StoreError('disk-failed', `The disk that holds the recordings failed (${code}).`, { code });
  }
}
