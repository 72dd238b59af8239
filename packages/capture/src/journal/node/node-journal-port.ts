import { createHash } from 'node:crypto';
import fs, { constants } from 'node:fs';
import { mkdir, open, readdir, readFile, rename, stat, statfs, unlink } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { errorCode, type JournalFilePort } from '../file-port.ts';

// Twenty times a second these cost less than a file handle of node:fs/promises.
const openFile = promisify(fs.open);
const writeFile = promisify(fs.write);
const syncFile = promisify(fs.fdatasync);
const closeFile = promisify(fs.close);

/** The file system of this machine. */
export const nodeJournalPort: JournalFilePort = {
  async makeFolder(path) {
    await mkdir(path, { recursive: true, mode: 0o700 });
  },
  async create(path) {
    const file = await openFile(path, 'ax', 0o600);
    return {
      // Writes until all is taken; a single write may take less.
      async write(bytes) {
        for (let from = 0; from < bytes.length; ) {
          const { bytesWritten } = await writeFile(file, bytes, from, bytes.length - from, null);
          from += bytesWritten;
        }
      },
      sync: () => syncFile(file),
      close: () => closeFile(file),
    };
  },
  read: (path) => readFile(path).catch(unless('ENOENT')),
  async list(path) {
    const found = await readdir(path, { withFileTypes: true }).catch(unless('ENOENT'));
    const files: { name: string; byteCount: number }[] = [];
    for (const entry of found ?? []) {
      if (!entry.isFile()) continue;
      const facts = await stat(join(path, entry.name)).catch(unless('ENOENT'));
      if (facts !== undefined) files.push({ name: entry.name, byteCount: facts.size });
    }
    return files;
  },
  async rename(from, to) {
    // On Windows a scanner may hold the target for a moment.
    for (let attempt = 1; ; attempt++) {
      try {
        return await rename(from, to);
      } catch (error) {
        const held = process.platform === 'win32' && ['EPERM', 'EACCES', 'EBUSY'].includes(errorCode(error));
        if (!held || attempt === 10) throw error;
        await new Promise((resolve) => setTimeout(resolve, 20 * attempt));
      }
    }
  },
  remove: (path) => unlink(path),
  async syncFolder(path) {
    // Windows has no handle on folders; its file system journals names by itself.
    if (process.platform === 'win32') return;
    const handle = await open(path, constants.O_RDONLY);
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  },
  async freeBytes(path) {
    const facts = await statfs(path);
    return facts.bavail * facts.bsize;
  },
  sha256() {
    const hash = createHash('sha256');
    return {
      update: (bytes) => {
        hash.update(bytes);
      },
      hex: () => hash.digest('hex'),
    };
  },
};

function unless(code: string): (error: unknown) => undefined {
  return (error) => {
    if (errorCode(error) !== code) throw error;
    return undefined;
  };
}
