import { CamelCasePlugin, Kysely, PostgresDialect, type PostgresPool, sql } from 'kysely';
import pg from 'pg';
import type { Database } from '../database.ts';
import { defaultBusyTimeout, type Engine, type EngineOptions } from './engine.ts';
import { checkParameters, engineFault } from './guard.ts';

/** Key of the advisory lock that writers queue for: the letters "sthene" as a number. */
const writersLock = 0x737468656e65;

/** Object identifier of int8 in PostgreSQL's catalogue (pg_type.dat). */
const int8 = 20;

/**
 * Opens a pool of connections to PostgreSQL; nothing is asked of the server yet.
 *
 * 8-byte integers arrive as numbers, as in SQLite; `wholeNumber` keeps larger ones than 2^53 - 1 from getting in.
 */
export function openPostgres(options: Extract<EngineOptions, { kind: 'postgres' }>): Engine {
  const types = new pg.TypeOverrides();
  types.setTypeParser(int8, Number);
  const pool = new pg.Pool({
    connectionString: options.connection,
    max: options.connections ?? 5,
    types,
    lock_timeout: options.busyTimeout ?? defaultBusyTimeout,
    // A commit is confirmed only when it is on disk, whatever the server's default says.
    options: '-c synchronous_commit=on',
  });
  // A connection that dies while idle would otherwise end the process; the next query reports by itself.
  pool.on('error', () => {});
  const db = new Kysely<Database>({
    dialect: new PostgresDialect({ pool: guarded(pool) }),
    plugins: [new CamelCasePlugin()],
  });
  return {
    kind: 'postgres',
    db,
    hasTables: async () => {
      const found = await sql<{ n: number }>`
        select count(*) as n from pg_catalog.pg_tables where schemaname = current_schema()`.execute(db);
      return found.rows[0]?.n !== 0;
    },
    queue: async (transaction) => {
      await sql`select pg_advisory_xact_lock(${sql.lit(writersLock)})`.execute(transaction);
    },
  };
}

function guarded(pool: pg.Pool): PostgresPool {
  return {
    end: () => pool.end(),
    connect: async () => {
      const client = await pool.connect().catch(rethrow);
      return {
        release: () => client.release(),
        query: (async (text: string, parameters: readonly unknown[]) => {
          checkParameters(parameters);
          return await client.query(text, [...parameters]).catch(rethrow);
        }) as never,
      };
    },
  };
}

function rethrow(error: unknown): never {
  if (error instanceof pg.DatabaseError) throw engineFault(error.code ?? 'unknown', error.constraint);
  const code = (error as { code?: unknown }).code;
  throw engineFault(typeof code === 'string' ? code : 'connection', undefined);
}
