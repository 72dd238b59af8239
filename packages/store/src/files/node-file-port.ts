import { constants } from 'node:fs';
import { lstat, mkdir, open, readdir, rename, unlink } from 'node:fs/promises';
import { join } from 'node:path';
import type { FilePort, FolderEntry } from './file-port.ts';

/** The file system of this machine. */
export const nodeFilePort: FilePort = {
  async makeFolder(path) {
    await mkdir(path, { mode: 0o700 }).catch(ignore('EEXIST'));
  },
  async create(path) {
    const file = await open(path, 'wx', 0o600);
    return {
      write: async (piece) => {
        // Writes until all of it is taken; a single write may take less.
        await file.writeFile(piece);
      },
      sync: () => file.sync(),
      close: () => file.close(),
    };
  },
  rename: async (from, to) => {
    // On Windows a scanner may hold the target for a moment.
    for (let attempt = 1; ; attempt += 1) {
      try {
        return await rename(from, to);
      } catch (error) {
        const held = process.platform === 'win32' && ['EPERM', 'EACCES', 'EBUSY'].includes(codeOf(error));
        if (!held || attempt === 10) throw error;
        await new Promise((resolve) => setTimeout(resolve, 20 * attempt));
      }
    }
  },
  async syncFolder(path) {
    // Windows has no handle on folders; its file system journals names by itself.
    if (process.platform === 'win32') return;
    await syncPath(path, constants.O_RDONLY);
  },
  // Windows syncs only through a handle that may write.
  syncFile: (path) => syncPath(path, process.platform === 'win32' ? constants.O_RDWR : constants.O_RDONLY),
  async read(path, range) {
    // A symbolic link would lead outside.
    const found = await lstat(path).catch(ignore('ENOENT', 'ENOTDIR'));
    if (!found?.isFile()) return undefined;
    const file = await open(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
    return file.createReadStream({
      highWaterMark: 256 * 1024,
      ...(range === undefined ? {} : { start: range.first, end: range.last }),
    }) as AsyncIterable<Uint8Array>;
  },
  async list(path) {
    const names = await readdir(path).catch(ignore('ENOENT', 'ENOTDIR'));
    const entries: FolderEntry[] = [];
    for (const name of names ?? []) {
      const found = await lstat(join(path, name)).catch(ignore('ENOENT'));
      if (found === undefined) continue;
      const kind = found.isFile() ? 'file' : found.isDirectory() ? 'folder' : 'other';
      entries.push({ name, kind, byteCount: found.size, changedAt: found.mtimeMs });
    }
    return entries;
  },
  remove: (path) => unlink(path),
};

async function syncPath(path: string, flags: number): Promise<void> {
  const handle = await open(path, flags);
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

function codeOf(error: unknown): string {
  const code = (error as { code?: unknown }).code;
  return typeof code === 'string' ? code : '';
}

function ignore(...codes: readonly string[]): (error: unknown) => undefined {
  return (error) => {
    if (!codes.includes(codeOf(error))) throw error;
    return undefined;
  };
}
