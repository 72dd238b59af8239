import SqliteDatabase from 'better-sqlite3';
import {
  CamelCasePlugin,
  CompiledQuery,
  type DatabaseConnection,
  type Driver,
  Kysely,
  type SqliteDatabase as KyselyDatabase,
  SqliteDialect,
  SqliteDriver,
} from 'kysely';
import type { Database } from '../database.ts';
import { StoreError } from '../errors.ts';
import { defaultBusyTimeout, type Engine, type EngineOptions } from './engine.ts';
import { checkParameters, engineFault } from './guard.ts';
import { Turns } from './turns.ts';

/**
 * Opens a SQLite file: write-ahead log, every commit synced to disk, foreign keys on.
 *
 * Throws `not-a-store` when the file is something else, `database-failed` when it cannot be opened.
 */
export function openSqlite(options: Extract<EngineOptions, { kind: 'sqlite' }>): Engine {
  const raw = translated(() => {
    // The engine's own wait would freeze the whole process, which may be recording; waiting is done in `begin`.
    const database = new SqliteDatabase(options.file, { timeout: 50 });
    try {
      database.pragma('journal_mode = WAL');
      database.pragma('synchronous = FULL');
      // An archive has indexes of many times the usual 2 MB; and a log that is copied back after every act writes pages twice.
      database.pragma('cache_size = -32000');
      database.pragma('wal_autocheckpoint = 8000');
      database.pragma('foreign_keys = ON');
      // Without this, INSERT OR REPLACE would remove a row and never ask the triggers that forbid it.
      database.pragma('recursive_triggers = ON');
    } catch (error) {
      database.close();
      throw error;
    }
    return database;
  });
  const dialect = new QueueingSqliteDialect(raw, options.busyTimeout ?? defaultBusyTimeout);
  const db = new Kysely<Database>({ dialect, plugins: [new CamelCasePlugin()] });
  return {
    kind: 'sqlite',
    db,
    hasTables: async () =>
      raw.prepare("select count(*) as n from sqlite_master where name not like 'sqlite_%'").pluck().get() !== 0,
    // `begin immediate` has queued already.
    queue: async () => {},
    copyTo: async (file) => {
      await raw.backup(file);
    },
  };
}

/** Kysely's dialect with guarded values, our errors, and transactions that take the write lock at their start. */
class QueueingSqliteDialect extends SqliteDialect {
  readonly #raw: SqliteDatabase.Database;
  readonly #busyTimeout: number;

  constructor(raw: SqliteDatabase.Database, busyTimeout: number) {
    super({ database: guarded(raw) });
    this.#raw = raw;
    this.#busyTimeout = busyTimeout;
  }

  override createDriver(): Driver {
    return new QueueingSqliteDriver(this.#raw, this.#busyTimeout);
  }
}

class QueueingSqliteDriver extends SqliteDriver {
  readonly #raw: SqliteDatabase.Database;
  readonly #busyTimeout: number;
  readonly #turns = new Turns();

  constructor(raw: SqliteDatabase.Database, busyTimeout: number) {
    super({ database: guarded(raw) });
    this.#raw = raw;
    this.#busyTimeout = busyTimeout;
  }

  /** One after the other, in the order they came: of Kysely's own wait everybody wakes up each time and all but one wait again. */
  override async acquireConnection(): Promise<DatabaseConnection> {
    await this.#turns.next();
    return super.acquireConnection();
  }

  override async releaseConnection(): Promise<void> {
    await super.releaseConnection();
    this.#turns.done();
  }

  /**
   * A transaction that first reads and then writes fails at once when another process wrote in between, so the write lock
   * is taken at the start. Waiting leaves the event loop free.
   */
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    const end = performance.now() + this.#busyTimeout;
    for (let pause = 2; ; pause = Math.min(pause * 2, 100)) {
      try {
        await connection.executeQuery(CompiledQuery.raw('begin immediate'));
        return;
      } catch (error) {
        const retry = error instanceof StoreError && error.code === 'busy' && performance.now() < end;
        if (!retry) throw error;
        await new Promise((resolve) => setTimeout(resolve, pause));
      }
    }
  }

  /** After a full disk or a disk fault SQLite has rolled back by itself; a second rollback would hide the first error. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#raw.inTransaction) await super.rollbackTransaction(connection);
  }
}

/** Statements kept prepared, those used last: about as many as kinds of questions a screen asks. */
const mostPrepared = 256;

function guarded(raw: SqliteDatabase.Database): KyselyDatabase {
  const kept = new Map<string, SqliteDatabase.Statement>();
  const prepare = (text: string): SqliteDatabase.Statement => {
    const statement = kept.get(text) ?? raw.prepare(text);
    kept.delete(text);
    if (!isQuestion.test(text)) return statement;
    if (kept.size >= mostPrepared) kept.delete(kept.keys().next().value as string);
    kept.set(text, statement);
    return statement;
  };
  return {
    close: () => {
      kept.clear();
      raw.close();
    },
    prepare: (text) => {
      const statement = translated(() => prepare(text));
      const run = <T>(parameters: readonly unknown[], act: () => T): T => {
        checkParameters(parameters);
        return translated(act);
      };
      return {
        reader: statement.reader,
        all: (parameters) => run(parameters, () => statement.all(...parameters)),
        // As one list: thousands of arguments of their own would not fit on the stack.
        run: (parameters) => run(parameters, () => statement.run([...parameters])),
        // Prepared for itself: a kept one would be busy for others while it is gone through.
        iterate: (parameters) =>
          run(parameters, () => raw.prepare(text).iterate(...parameters)) as IterableIterator<unknown>,
      };
    },
  };
}

/** What reads and writes rows; a change of the schema or a setting is prepared, and done, once. */
const isQuestion = /^\s*(select|insert|update|delete|with)\b/i;

/** Runs `act` and turns the engine's errors into ours. */
export function translated<T>(act: () => T): T {
  try {
    return act();
  } catch (error) {
    throw sqliteFault(error);
  }
}

function sqliteFault(error: unknown): unknown {
  if (error instanceof SqliteDatabase.SqliteError) return engineFault(error.code, undefined);
  if (error instanceof TypeError && error.message.includes('not open')) {
    return new StoreError('closed', 'The store has been closed.');
  }
  return error;
}
