import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import SqliteDatabase from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openStore } from '../src/index.ts';
import { migrations } from '../src/migrations/index.ts';
import { openStoreWith } from '../src/store.ts';
import { endChildrenAfterAll, startChild } from './children.ts';
import { coach, onBothEngines, onSqlite, type Place } from './engines.ts';
import { imre, oneTrial, resultOf, versions } from './fernwater.ts';
import { laterMigration } from './later-migration.ts';
import { schemaText } from './schema-text.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });
const later = [...migrations, laterMigration];
const allowed = (here: Place) => ({ ...here.options('later'), beforeMigration: async () => {} });

endChildrenAfterAll();

describe('migration files', () => {
  it('are frozen: a shipped file is never changed, a change is a new file', () => {
    const folder = fileURLToPath(new URL('../src/migrations/', import.meta.url));
    const files = readdirSync(folder).filter((name) => /^\d{4}-.*\.ts$/.test(name));
    const hashes = Object.fromEntries(
      files.sort().map((name) => [
        name,
        createHash('sha256')
          .update(readFileSync(join(folder, name)))
          .digest('hex'),
      ]),
    );
    const frozen: unknown = JSON.parse(readFileSync(new URL('../schema/migrations.json', import.meta.url), 'utf8'));
    expect(hashes).toEqual(frozen);
  });

  it('are listed in order, each under its own number and name', () => {
    const folder = fileURLToPath(new URL('../src/migrations/', import.meta.url));
    const files = readdirSync(folder).filter((name) => /^\d{4}-.*\.ts$/.test(name));
    const names = migrations.map(({ number, name }) => `${String(number).padStart(4, '0')}-${name}.ts`);
    expect(names).toEqual(files.sort());
    expect(migrations.map(({ number }) => number)).toEqual(migrations.map((_, index) => index + 1));
  });
});

onBothEngines('schema', (place) => {
  it('is the one checked in', async () => {
    const here = await place();
    await here.open();
    await expect(await schemaText(here)).toMatchFileSnapshot(`../schema/${here.kind}.sql`);
  });

  it('goes up once, keeps every record, and is refused by the older program', async () => {
    const here = await place();
    const store = await here.open();
    const { person, trial } = await oneTrial(store);
    const result = await store.results.add({ trial: trial.id, document: resultOf(2500), versions }, coach);
    const end = await store.audit.last();
    await store.close();
    const upgraded = await openStoreWith(allowed(here), later);
    expect(await upgraded.people.get(person.id)).toEqual(person);
    expect(await upgraded.results.get(result.id)).toEqual(result);
    expect(await upgraded.audit.verify(end)).toMatchObject({ intact: true });
    await upgraded.close();
    await (await openStoreWith(allowed(here), later)).close();
    expect(await here.run('select number, name, application from schema_migrations order by number')).toEqual([
      ...later.map(({ number, name }) => ({ number, name, application: 'sthene 0.1.0-test' })),
    ]);
    const content = JSON.stringify(await here.run('select * from people'));
    await expect(here.open('b')).rejects.toEqual(failing('schema-newer'));
    expect(JSON.stringify(await here.run('select * from people'))).toBe(content);
  });

  it('of the first release is brought up to date with everything in it', async () => {
    const here = await place();
    const old = await openStoreWith(here.options(), migrations.slice(0, 1));
    const { person, trial } = await oneTrial(old);
    const result = await old.results.add({ trial: trial.id, document: resultOf(2500), versions }, coach);
    const end = await old.audit.last();
    await old.close();
    const upgraded = await openStoreWith({ ...allowed(here) }, migrations);
    expect(await upgraded.results.current(trial.id)).toEqual(result);
    expect(await upgraded.audit.verifyRecords()).toEqual([]);
    expect(await upgraded.recomputations.list()).toEqual([]);
    expect(await upgraded.people.get(person.id)).toEqual(person);
    expect(await upgraded.trials.get(trial.id)).toEqual(trial);
    expect(await upgraded.audit.verify(end)).toMatchObject({ intact: true });
    expect(await upgraded.rigs.list()).toEqual([]);
    expect(await upgraded.protocols.list()).toEqual([]);
    await upgraded.close();
  });

  it('with a missing or another migration is refused', async () => {
    const here = await place();
    await (await openStoreWith(allowed(here), later)).close();
    const other = [...migrations, { ...laterMigration, name: 'other' }];
    await expect(openStoreWith(allowed(here), other)).rejects.toEqual(failing('schema-reordered'));
    await here.run('delete from schema_migrations where number = 1');
    await expect(openStoreWith(allowed(here), later)).rejects.toEqual(failing('schema-migration-missing'));
  });

  it('of something else is refused and left alone', async () => {
    const here = await place();
    await here.run('create table cats (name text)', "insert into cats values ('Ash')");
    await expect(here.open()).rejects.toEqual(failing('not-a-store'));
    expect(await here.run('select * from cats')).toEqual([{ name: 'Ash' }]);
    await expect(here.run('select * from schema_migrations')).rejects.toThrow();
  });

  it('stays the old one when a statement fails, whichever it is', async () => {
    const here = await place();
    const store = await here.open();
    await store.people.add(imre, coach);
    await store.close();
    const before = await schemaText(here);
    for (let n = 0; n <= laterMigration.statements(here.kind).length; n += 1) {
      const statements = laterMigration.statements(here.kind).toSpliced(n, 0, 'select nonsense from nowhere');
      const broken = { ...laterMigration, statements: () => statements };
      await expect(openStoreWith(allowed(here), [...migrations, broken])).rejects.toMatchObject({
        code: 'schema-migration-failed',
        facts: { number: later.length, statement: n + 1 },
      });
      expect(await schemaText(here)).toBe(before);
    }
    await (await here.open('b')).close();
  });

  it('is the old or the new one when the process is killed at any statement, and the next start finishes', async () => {
    const here = await place();
    const store = await here.open();
    await store.people.add(imre, coach);
    await store.close();
    const before = await schemaText(here);
    for (let n = 0; n <= laterMigration.statements(here.kind).length; n += 1) {
      const child = await startChild('./migration-child.ts', JSON.stringify(here.engine), here.folder, `${n}`);
      expect((await child.ended).how).toBe('SIGKILL');
      expect(await schemaText(here)).toBe(before);
    }
    const upgraded = await openStoreWith(allowed(here), later);
    expect(await upgraded.people.list()).toHaveLength(1);
    expect(await here.run('select count(*) as n from boats')).toMatchObject([{ n: expect.anything() }]);
    await upgraded.close();
  });

  it('is not changed on PostgreSQL without a backup, and SQLite makes its own', async () => {
    const here = await place();
    await (await here.open()).close();
    const { beforeMigration: _, ...options } = allowed(here);
    const attempt = openStoreWith(options, later);
    if (here.kind === 'postgres') {
      await expect(attempt).rejects.toEqual(failing('backup-needed'));
      const steps: unknown[] = [];
      const told = { ...options, beforeMigration: async (step: object) => void steps.push(step) };
      await (await openStoreWith(told, later)).close();
      expect(steps).toEqual([{ from: migrations.length, to: later.length }]);
    } else await (await attempt).close();
  });
});

onSqlite('SQLite file', (place) => {
  const fileOf = (here: Place) => (here.engine.kind === 'sqlite' ? here.engine.file : expect.fail('not SQLite'));

  it('is copied before its schema changes, and the copy opens with the older program', async () => {
    const here = await place();
    const store = await here.open();
    const person = await store.people.add(imre, coach);
    const end = await store.audit.last();
    await store.close();
    await (await openStoreWith(here.options('later'), later)).close();
    const copies = readdirSync(here.folder).filter((name) => name.endsWith('.backup'));
    expect(copies).toEqual([`fernwater.sqlite.schema-${migrations.length}.2026-03-02T08-00-00-000Z.backup`]);
    // One plain file: bytes 18 and 19 of the header are 1 without a write-ahead log, 2 with one
    // (https://www.sqlite.org/fileformat2.html#the_database_header).
    expect([...readFileSync(join(here.folder, copies[0]!)).subarray(18, 20)]).toEqual([1, 1]);
    const copy = await openStore({
      ...here.options('b'),
      engine: { kind: 'sqlite', file: join(here.folder, copies[0]!) },
    });
    expect(await copy.people.get(person.id)).toEqual(person);
    expect(await copy.audit.verify(end)).toMatchObject({ intact: true, entries: 1 });
    await copy.close();
    // A fresh file has nothing to lose, and an up-to-date one is not copied again.
    await (await openStoreWith(here.options('c'), later)).close();
    expect(readdirSync(here.folder).filter((name) => name.endsWith('.backup'))).toHaveLength(1);
  });

  it('is not migrated when the copy cannot be made', async () => {
    const here = await place();
    await (await here.open()).close();
    const before = await schemaText(here);
    const bad = { ...here.options('later'), clock: { now: () => 'no/such/folder' as never } };
    await expect(openStoreWith(bad, later)).rejects.toEqual(failing('backup-failed'));
    expect(await schemaText(here)).toBe(before);
  });

  it('of a newer program, or of something else, keeps every byte', async () => {
    const here = await place();
    await (await openStoreWith(here.options(), later)).close();
    const newer = readFileSync(fileOf(here));
    await expect(here.open('b')).rejects.toEqual(failing('schema-newer'));
    expect(readFileSync(fileOf(here)).equals(newer)).toBe(true);
    const other = join(here.folder, 'other.sqlite');
    new SqliteDatabase(other).exec('create table cats (name text)').close();
    const bytes = readFileSync(other);
    const engine = { kind: 'sqlite', file: other } as const;
    await expect(openStore({ ...here.options('c'), engine })).rejects.toEqual(failing('not-a-store'));
    expect(readFileSync(other).equals(bytes)).toBe(true);
    const text = join(here.folder, 'letter.txt');
    writeFileSync(text, 'Dear coach, this is no database. '.repeat(100));
    const letter = { kind: 'sqlite', file: text } as const;
    await expect(openStore({ ...here.options('d'), engine: letter })).rejects.toEqual(failing('not-a-store'));
    expect(readFileSync(text, 'utf8')).toContain('Dear coach');
  });

  it('can be copied while it is written to', async () => {
    const here = await place();
    const store = await here.open();
    await store.people.add(imre, coach);
    const writes = Array.from({ length: 30 }, (_, n) => store.people.add({ ...imre, code: `FW-${n + 2}` }, coach));
    const file = join(here.folder, 'copy.sqlite');
    const end = await store.backUp(file);
    await Promise.all(writes);
    const copy = await openStore({ ...here.options('b'), engine: { kind: 'sqlite', file } });
    expect(await copy.audit.verify(end)).toMatchObject({ intact: true });
    expect(await copy.people.byCode('FW-01')).toBeDefined();
    await copy.close();
    await expect(store.backUp(join(here.folder, 'no', 'copy.sqlite'))).rejects.toEqual(failing('backup-failed'));
  });
});
