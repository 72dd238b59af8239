import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import type { ByteSource } from '@sthene/formats';
import { exitCodes } from '../terminal/exit-codes.ts';
import { Failure } from '../terminal/failure.ts';

/** An opened file as a byte source; close it when done. */
export interface FileSource extends ByteSource {
  close(): Promise<void>;
}

/** Opens a file. Fails with `file-not-found`, `file-not-readable` or `file-is-folder`. */
export async function openFile(path: string): Promise<FileSource> {
  let handle: FileHandle;
  try {
    handle = await open(path, 'r');
  } catch (error) {
    throw refusal(path, (error as NodeJS.ErrnoException).code);
  }
  const status = await handle.stat();
  if (status.isDirectory()) {
    await handle.close();
    throw refusal(path, 'EISDIR');
  }
  return {
    name: path,
    length: status.size,
    async read(offset, length) {
      const wanted = Math.max(0, Math.min(length, status.size - offset));
      const bytes = new Uint8Array(wanted);
      let filled = 0;
      while (filled < wanted) {
        const { bytesRead } = await handle.read(bytes, filled, wanted - filled, offset + filled);
        if (bytesRead === 0) break;
        filled += bytesRead;
      }
      return filled === wanted ? bytes : bytes.subarray(0, filled);
    },
    close: () => handle.close(),
  };
}

/** SHA-256 of a file's bytes, lower-case hexadecimal, read in pieces. */
export async function hashFile(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(path)) hash.update(piece as Buffer);
  return hash.digest('hex');
}

function refusal(path: string, code: string | undefined): Failure {
  if (code === 'ENOENT')
    return new Failure(
      'file-not-found',
      `There is no file "${path}".`,
      'Check the spelling and the folder.',
      exitCodes.inputInvalid,
    );
  if (code === 'EISDIR')
    return new Failure(
      'file-is-folder',
      `"${path}" is a folder.`,
      'Name the files in it, for example with a pattern such as folder/*.csv.',
      exitCodes.inputInvalid,
    );
  return new Failure(
    'file-not-readable',
    `"${path}" cannot be read (${code ?? 'unknown reason'}).`,
    'Check its permissions.',
    exitCodes.inputInvalid,
  );
}
