import { expect, it } from 'vitest';
import { migrations, openStore } from '../src/index.ts';
import { endChildrenAfterAll, startWriter } from './children.ts';
import { coach, onBothEngines, onSqlite } from './engines.ts';
import { imre } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });

endChildrenAfterAll();

onBothEngines('several writers', (place) => {
  it('from two stores of one process keep one chain', async () => {
    const here = await place();
    const stores = [await here.open('a'), await here.open('b')];
    const writes = Array.from({ length: 60 }, (_, n) =>
      stores[n % 2]!.people.add({ ...imre, code: `FW-${n}` }, { by: `account-${n % 2}`, station: 's' }),
    );
    await Promise.all(writes);
    expect(await stores[0]!.people.list()).toHaveLength(60);
    expect(await stores[1]!.audit.verify()).toMatchObject({ intact: true, entries: 60 });
    expect(await stores[1]!.audit.verifyRecords()).toEqual([]);
  });

  it('lose no change to one record: each is made from the state before it', async () => {
    const here = await place();
    const [a, b] = [await here.open('a'), await here.open('b')];
    const { id } = await a.people.add(imre, coach);
    const edits = Array.from({ length: 20 }, (_, n) => (n % 2 ? a : b).people.change(id, { notes: `${n}` }, coach));
    const numbers = (await Promise.all(edits)).map(({ revision }) => revision);
    expect(numbers.sort((x, y) => x - y)).toEqual(Array.from({ length: 20 }, (_, n) => n + 2));
    const late = [a, b].map((store) => store.people.change(id, { notes: 'last' }, coach, { expected: 21 }));
    const ends = await Promise.allSettled(late);
    expect(ends.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(ends.find((end) => end.status === 'rejected')?.reason).toEqual(failing('changed-meanwhile'));
  });

  it('from two processes keep one chain', async () => {
    const here = await place();
    const store = await here.open();
    const children = await Promise.all(['left', 'right'].map((name) => startWriter(here, name, 40)));
    for (let n = 0; n < 20; n += 1) await store.people.add({ ...imre, code: `here-${n}` }, coach);
    for (const child of children) expect(await child.ended).toEqual({ how: 0, errors: '' });
    expect(await store.people.list()).toHaveLength(100);
    expect(await store.audit.verify()).toMatchObject({ intact: true, entries: 180 });
    expect(await store.audit.verifyRecords()).toEqual([]);
  });

  it('that wait too long are told so, and nothing of theirs is kept', async () => {
    const here = await place();
    const store = await here.open();
    const options = here.options('b');
    const hasty = await openStore({ ...options, engine: { ...options.engine, busyTimeout: 150 } });
    try {
      let release = () => {};
      const held = new Promise<void>((resolve) => {
        release = resolve;
      });
      let started = () => {};
      const begun = new Promise<void>((resolve) => {
        started = resolve;
      });
      const long = store.transaction(async (inside) => {
        await inside.people.add(imre, coach);
        started();
        await held;
      });
      await begun;
      await expect(hasty.people.add({ ...imre, code: 'FW-99' }, coach)).rejects.toEqual(failing('busy'));
      // Readers do not wait, and see nothing half done.
      expect(await hasty.people.list()).toEqual([]);
      release();
      await long;
      expect((await hasty.people.list()).map(({ code }) => code)).toEqual(['FW-01']);
      expect((await hasty.people.add({ ...imre, code: 'FW-99' }, coach)).code).toBe('FW-99');
    } finally {
      await hasty.close();
    }
  });

  it('that open an empty database at once make one schema', async () => {
    const here = await place();
    const stores = await Promise.all(['a', 'b', 'c'].map((prefix) => here.open(prefix)));
    for (const [n, store] of stores.entries()) await store.people.add({ ...imre, code: `FW-${n}` }, coach);
    expect(await here.run('select number from schema_migrations')).toHaveLength(migrations.length);
    expect(await stores[0]!.people.list()).toHaveLength(3);
  });
});

onSqlite('SQLite connection', (place) => {
  it('logs ahead, syncs every commit and checks references', async () => {
    const here = await place();
    const store = await here.open();
    await store.people.add(imre, coach);
    const { openSqlite } = await import('../src/dialects/sqlite.ts');
    if (here.engine.kind !== 'sqlite') throw new Error('not SQLite');
    const engine = openSqlite(here.engine);
    const { sql } = await import('kysely');
    const ask = async (name: string) =>
      Object.values((await sql.raw(`pragma ${name}`).execute(engine.db)).rows[0] as object)[0];
    // 2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous
    expect([await ask('journal_mode'), await ask('synchronous'), await ask('foreign_keys')]).toEqual(['wal', 2, 1]);
    await engine.db.destroy();
  });

  it('refuses INSERT OR REPLACE over a row that must stay', async () => {
    const here = await place();
    const store = await here.open();
    await store.people.add(imre, coach);
    const { openSqlite } = await import('../src/dialects/sqlite.ts');
    const { sql } = await import('kysely');
    if (here.engine.kind !== 'sqlite') throw new Error('not SQLite');
    const engine = openSqlite(here.engine);
    const replace = sql`insert or replace into audit select * from audit`.execute(engine.db);
    await expect(replace).rejects.toEqual(failing('append-only'));
    await engine.db.destroy();
  });

  it('reports use after closing', async () => {
    const here = await place();
    const store = await here.open();
    await store.close();
    await store.close();
    await expect(store.people.list()).rejects.toEqual(failing('closed'));
    await expect(store.people.add(imre, coach)).rejects.toEqual(failing('closed'));
  });
});
