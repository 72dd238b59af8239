import { type Kysely, sql } from 'kysely';
import type { Database } from '../database.ts';
import type { Engine } from '../dialects/engine.ts';
import { StoreError } from '../errors.ts';
import type { Clock } from '../ports.ts';
import { type Applied, checkApplied } from './check.ts';
import type { Migration } from './migration.ts';

/** What is to be done before the schema of existing data changes; resolves when a copy is safe. */
export type BeforeMigration = (step: { readonly from: number; readonly to: number }) => Promise<void>;

export interface MigrateOptions {
  readonly migrations: readonly Migration[];
  readonly clock: Clock;
  readonly application: string;
  readonly before: BeforeMigration;
}

/**
 * Brings the schema to the newest migration, in one transaction: after a crash the schema is the old or the new one.
 *
 * Refuses, before anything is written: a database of something else (`not-a-store`), of a newer program (`schema-newer`),
 * with a migration left out (`schema-migration-missing`) or in another order (`schema-reordered`). A statement that fails
 * gives `schema-migration-failed` and leaves the old schema.
 */
export async function migrate(engine: Engine, options: MigrateOptions): Promise<void> {
  checkNumbers(options.migrations);
  const from = await readApplied(engine, options.migrations);
  if (from === options.migrations.length) return;
  if (from > 0) await options.before({ from, to: options.migrations.length });
  await engine.db.transaction().execute(async (db) => {
    await engine.queue(db);
    // Another process may have migrated while this one waited.
    await prepare(db);
    const applied = await appliedNames(db);
    checkApplied(applied, options.migrations);
    for (const migration of options.migrations.slice(applied.length)) {
      await run(db, engine, migration);
      const { number, name } = migration;
      const { clock, application } = options;
      await db.insertInto('schemaMigrations').values({ number, name, appliedAt: clock.now(), application }).execute();
    }
  });
}

/** How many migrations a database has; checks them against the known ones and writes nothing. */
export async function readApplied(engine: Engine, migrations: readonly Migration[]): Promise<number> {
  if (!(await engine.hasTables())) return 0;
  let applied: readonly Applied[];
  try {
    applied = await appliedNames(engine.db);
  } catch (error) {
    // The table is missing: 42P01 in PostgreSQL, SQLITE_ERROR in SQLite.
    const missing = error instanceof StoreError && ['42P01', 'SQLITE_ERROR'].includes(`${error.facts.engineCode}`);
    if (!missing) throw error;
    throw new StoreError('not-a-store', 'The database holds tables of something else. Choose another one.');
  }
  checkApplied(applied, migrations);
  return applied.length;
}

function appliedNames(db: Kysely<Database>): Promise<Applied[]> {
  return db.selectFrom('schemaMigrations').select(['number', 'name']).orderBy('number').execute();
}

async function prepare(db: Kysely<Database>): Promise<void> {
  await db.schema
    .createTable('schemaMigrations')
    .ifNotExists()
    .addColumn('number', 'integer', (column) => column.primaryKey().notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('appliedAt', 'text', (column) => column.notNull())
    .addColumn('application', 'text', (column) => column.notNull())
    .execute();
}

async function run(db: Kysely<Database>, engine: Engine, migration: Migration): Promise<void> {
  const statements = migration.statements(engine.kind);
  for (const [index, statement] of statements.entries()) {
    try {
      await sql.raw(statement).execute(db);
    } catch (error) {
      const engineCode = error instanceof StoreError ? (error.facts.engineCode ?? error.code) : 'unknown';
      throw new StoreError(
        'schema-migration-failed',
        `Migration ${migration.number} (${migration.name}) failed; the database is as it was before.`,
        { number: migration.number, statement: index + 1, engineCode },
      );
    }
  }
}

function checkNumbers(migrations: readonly Migration[]): void {
  for (const [index, { number }] of migrations.entries()) {
    if (number !== index + 1) throw new Error(`Migration ${number} stands at place ${index + 1}.`);
  }
}
