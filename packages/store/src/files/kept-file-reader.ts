import { closeSync, constants, fstatSync, openSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { StoreError } from '../errors.ts';
import { sha256Hex } from '../hash.ts';
import { hash } from '../values.ts';

/** Reads kept files by their hash, one after the other; undefined where there is none. Throws `file-damaged`, `disk-failed`. */
export type KeptFileReader = (sha256: string) => Uint8Array | undefined;

/**
 * Reads the files of a folder file store in a thread that has nothing else to do and may therefore wait for the disk. The names of
 * one shard are remembered: an archive is gone through in the order of its hashes.
 *
 * @param folder the data folder, as `folderFileStore` has it
 */
export function keptFileReader(folder: string): KeptFileReader {
  let shard = '';
  let names = new Map<string, string>();
  const nameOf = (sha256: string): string | undefined => {
    const asked = sha256.slice(0, 2);
    if (asked !== shard || !names.has(sha256)) {
      const found = readdirSync(join(folder, 'recordings', asked)).map((name) => [name.split('.')[0] ?? '', name]);
      names = new Map(found as [string, string][]);
      shard = asked;
    }
    return names.get(sha256);
  };
  return (sha256) => {
    hash('file', sha256);
    try {
      const name = nameOf(sha256);
      if (name === undefined) return undefined;
      const bytes = contentOf(join(folder, 'recordings', shard, name));
      if (bytes === undefined) return undefined;
      if (sha256Hex(bytes) === sha256) return bytes;
    } catch (error) {
      const { code } = error as { code?: unknown };
      if (code === 'ENOENT' || code === 'ENOTDIR') return undefined;
      if (typeof code !== 'string') throw error;
      throw new StoreError('disk-failed', `The disk that holds the recordings failed (${code}).`, { code });
    }
    throw new StoreError('file-damaged', 'A kept file no longer has the content it was kept with.', { sha256 });
  };
}

/** A symbolic link would lead outside, so it is no file here. */
function contentOf(path: string): Uint8Array | undefined {
  let handle: number;
  try {
    handle = openSync(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
  } catch (error) {
    if ((error as { code?: unknown }).code === 'ELOOP') return undefined;
    throw error;
  }
  try {
    return fstatSync(handle).isFile() ? readFileSync(handle) : undefined;
  } finally {
    closeSync(handle);
  }
}
