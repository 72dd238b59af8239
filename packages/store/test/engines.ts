import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { UtcInstant } from '@sthene/core';
import SqliteDatabase from 'better-sqlite3';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, describe } from 'vitest';
import type { EngineKind, EngineOptions } from '../src/dialects/engine.ts';
import { folderFileStore } from '../src/files/folder-file-store.ts';
import { type Actor, type Clock, type Ids, openStore, type Store, type StoreOptions } from '../src/index.ts';
import { findPostgres, type PostgresServer } from './postgres.ts';

/** An actor of the demo club. */
export const coach: Actor = { by: 'account-coach', role: 'scientist', station: 'station-boathouse' };
export const assistant: Actor = { by: 'account-assistant', station: 'station-boathouse' };

/** A clock that moves one second each time it is read. */
export function steppingClock(start = '2026-03-02T08:00:00.000Z'): Clock {
  let time = Date.parse(start);
  return {
    now: () => {
      const now = new Date(time).toISOString() as UtcInstant;
      time += 1_000;
      return now;
    },
  };
}

/** Ids that are unique among all stores with another prefix, and do not sort by age. */
export function countingIds(prefix = 'a'): Ids {
  let last = 0;
  return {
    next: () => {
      last += 1;
      return `${prefix}-${((last * 7919) % 10_007).toString(36)}-${last}`;
    },
  };
}

/** A place for one test: an empty database and an empty folder. */
export interface Place {
  readonly kind: EngineKind;
  readonly engine: EngineOptions;
  readonly folder: string;
  /** Options as `open` uses them. */
  readonly options: (prefix?: string) => StoreOptions;
  /** Opens a store here; it is closed after the test. */
  readonly open: (prefix?: string) => Promise<Store>;
  /** Changes the database behind the store's back, with the guards against it switched off. */
  readonly tamper: (...statements: string[]) => Promise<void>;
  /** Runs statements as anyone with the store's own rights could. */
  readonly run: (...statements: string[]) => Promise<unknown[]>;
}

const postgres = findPostgres();

/** Runs the same tests on both engines; without PostgreSQL its half is skipped and says what to install. */
export function onBothEngines(title: string, tests: (place: () => Promise<Place>) => void): void {
  describe(`${title} on SQLite`, () => tests(placesOn(sqlitePlace)));
  if (!postgres.available) {
    describe.skip(`${title} on PostgreSQL: ${postgres.reason}`, () => tests(placesOn(sqlitePlace)));
    return;
  }
  describe(`${title} on PostgreSQL`, () => {
    let server: PostgresServer | undefined;
    beforeAll(async () => {
      server = await postgres.start();
    });
    tests(
      placesOn(async (folder) => {
        if (server === undefined) throw new Error('The server has not been started.');
        return postgresPlace(server, folder);
      }),
    );
    afterAll(async () => {
      await server?.stop();
    });
  });
}

/** The same for tests of SQLite alone. */
export function onSqlite(title: string, tests: (place: () => Promise<Place>) => void): void {
  describe(title, () => tests(placesOn(sqlitePlace)));
}

type Raw = Pick<Place, 'kind' | 'engine' | 'tamper' | 'run'>;

function placesOn(make: (folder: string) => Promise<Raw>): () => Promise<Place> {
  const stores: Store[] = [];
  const folders: string[] = [];
  afterEach(async () => {
    for (const store of stores.splice(0)) await store.close();
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
  return async () => {
    const folder = mkdtempSync(join(tmpdir(), 'sthene-store-'));
    folders.push(folder);
    const raw = await make(folder);
    const options = (prefix?: string): StoreOptions => ({
      engine: raw.engine,
      files: folderFileStore({ folder, ids: countingIds(`file-${prefix ?? 'a'}`) }),
      clock: steppingClock(),
      ids: countingIds(prefix),
      application: 'sthene 0.1.0-test',
    });
    return {
      ...raw,
      folder,
      options,
      open: async (prefix) => {
        const store = await openStore(options(prefix));
        stores.push(store);
        return store;
      },
    };
  };
}

async function sqlitePlace(folder: string): Promise<Raw> {
  const file = join(folder, 'fernwater.sqlite');
  const run = async (...statements: string[]) => {
    const database = new SqliteDatabase(file);
    try {
      return statements.flatMap((text) => {
        const statement = database.prepare(text);
        return statement.reader ? statement.all() : [statement.run()];
      });
    } finally {
      database.close();
    }
  };
  return {
    kind: 'sqlite',
    engine: { kind: 'sqlite', file },
    run,
    tamper: async (...statements) => {
      const triggers = await run("select name from sqlite_master where type = 'trigger'");
      const drops = triggers.map((row) => `drop trigger ${(row as { name: string }).name}`);
      await run(...drops, 'pragma foreign_keys = off', ...statements);
    },
  };
}

async function postgresPlace(server: PostgresServer, _folder: string): Promise<Raw> {
  const connection = await server.createDatabase();
  const run = async (...statements: string[]) => {
    const client = new pg.Client(connection);
    await client.connect();
    try {
      const rows: unknown[] = [];
      for (const text of statements) rows.push(...(await client.query(text)).rows);
      return rows;
    } finally {
      await client.end();
    }
  };
  return {
    kind: 'postgres',
    engine: { kind: 'postgres', connection },
    run,
    tamper: async (...statements) => {
      await run("set session_replication_role = 'replica'", ...statements);
    },
  };
}
