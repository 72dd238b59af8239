import { open, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import type { Engine } from '../dialects/engine.ts';
import { StoreError } from '../errors.ts';

/**
 * Copies a SQLite database into a new file through the database's own interface, also while it is written to; checks the
 * copy, syncs it, and only then gives it its name. Throws `backup-failed`, and then leaves nothing behind.
 */
export async function backUpSqlite(engine: Engine, file: string): Promise<void> {
  const temporary = `${file}.part`;
  try {
    if (engine.copyTo === undefined) throw new Error('no copy on this engine');
    await rm(temporary, { force: true });
    await engine.copyTo(temporary);
    checkCopy(temporary);
    await sync(temporary, 'r+');
    await rename(temporary, file);
    if (process.platform !== 'win32') await sync(dirname(file), 'r');
  } catch (error) {
    await rm(temporary, { force: true }).catch(() => {});
    const code = (error as { code?: unknown }).code;
    throw new StoreError('backup-failed', 'The database could not be copied. Nothing else was done.', {
      cause: typeof code === 'string' ? code : 'check',
    });
  }
}

function checkCopy(file: string): void {
  const copy = new SqliteDatabase(file);
  try {
    // One plain file: the copy must not need a log beside it.
    copy.pragma('journal_mode = DELETE');
    if (copy.pragma('integrity_check', { simple: true }) !== 'ok') throw new Error('integrity');
  } finally {
    copy.close();
  }
}

async function sync(path: string, flags: string): Promise<void> {
  const handle = await open(path, flags);
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
