import SqliteDatabase from 'better-sqlite3';
import { expect, it } from 'vitest';
import { endChildrenAfterAll, startWriter } from './children.ts';
import { onSqlite } from './engines.ts';

endChildrenAfterAll();

/** Kills while the child commits; each confirmed act consists of two writes that must both be there. */
const kills = 10;

onSqlite('a killed station', (place) => {
  it(`loses nothing it has confirmed and keeps nothing by half, over ${kills} kills`, async () => {
    const here = await place();
    await (await here.open('first')).close();
    const confirmed: string[] = [];
    let cutShort = 0;
    for (let round = 0; round < kills; round += 1) {
      const child = await startWriter(here, `round${round}`, 100_000);
      await child.said(1 + 3 * (round + 1));
      // At another point of the loop each time.
      await new Promise((resolve) => setTimeout(resolve, (round * 7) % 13));
      child.process.kill('SIGKILL');
      expect((await child.ended).how).toBe('SIGKILL');
      expect(child.lines[0]).toBe('ready');
      confirmed.push(...child.lines.slice(1));
      if (here.engine.kind !== 'sqlite') throw new Error('not SQLite');
      const database = new SqliteDatabase(here.engine.file);
      expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
      database.close();
      const store = await here.open(`check${round}`);
      const people = await store.people.list();
      const codes = new Set(people.map(({ code }) => code));
      expect(confirmed.filter((code) => !codes.has(code))).toEqual([]);
      for (const { code, notes, revision } of people)
        expect([code, revision, notes]).toEqual([code, 2, `second write of ${code}`]);
      // At most one act per kill was committed and not yet confirmed.
      cutShort = people.length - confirmed.length;
      expect(cutShort).toBeLessThanOrEqual(round + 1);
      expect(await store.audit.verify()).toMatchObject({ intact: true, entries: people.length * 2 });
      expect(await store.audit.verifyRecords()).toEqual([]);
      await store.close();
    }
    expect(confirmed.length).toBeGreaterThan(3 * kills);
  }, 400_000);
});
