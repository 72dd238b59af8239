import { expect, it } from 'vitest';
import { chainStart, entryHash } from '../src/audit/entry.ts';
import type { AuditRow } from '../src/database.ts';
import type { ChainEnd, Store } from '../src/index.ts';
import { assistant, coach, onBothEngines } from './engines.ts';
import { imre, method, methodHash, oneTrial, recordingOf, resultOf, sessionOf, versions } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });

/** Six entries by two actors. */
async function someEntries(store: Store): Promise<ChainEnd> {
  const { id } = await store.people.add(imre, coach);
  for (const notes of ['one', 'two', 'three']) await store.people.change(id, { notes }, assistant);
  await store.settings.set('units.force', 'N', coach);
  await store.audit.add({ action: 'export.make', subject: { kind: 'person', id }, details: { rows: 4 } }, coach);
  const end = await store.audit.last();
  if (end === undefined) throw new Error('no entries');
  return end;
}

onBothEngines('audit trail', (place) => {
  it('is a chain that verifies, from empty to many', async () => {
    const store = await (await place()).open();
    expect(await store.audit.verify()).toEqual({ intact: true, entries: 0, last: { sequence: 0, hash: chainStart } });
    const end = await someEntries(store);
    expect(await store.audit.verify(end)).toEqual({ intact: true, entries: 6, last: end });
    const entries = await store.audit.list();
    expect(entries.map(({ sequence }) => sequence)).toEqual([6, 5, 4, 3, 2, 1]);
    expect(entries.at(-1)).toMatchObject({
      by: coach.by,
      role: 'scientist',
      station: 'station-boathouse',
      action: 'person.add',
      previousHash: chainStart,
    });
    expect(entries[1]).toMatchObject({ action: 'setting.set', subject: { kind: 'setting', id: 'units.force' } });
    expect(entries[2]).not.toHaveProperty('role');
    expect((await store.audit.list({ by: assistant.by, limit: 2 })).map(({ sequence }) => sequence)).toEqual([4, 3]);
    expect((await store.audit.list({ subject: { kind: 'setting' } })).map(({ sequence }) => sequence)).toEqual([5]);
    expect((await store.audit.list({ before: 3 })).map(({ sequence }) => sequence)).toEqual([2, 1]);
  });

  it('verifies more entries than one page', async () => {
    const store = await (await place()).open();
    await store.transaction(async (inside) => {
      for (let n = 1; n <= 1_001; n += 1) {
        await inside.audit.add({ action: 'test.count', subject: { kind: 'test', id: `${n}` } }, coach);
      }
    });
    expect(await store.audit.verify()).toMatchObject({ intact: true, entries: 1_001 });
  });

  it.each([
    ['at', "'2026-03-02T08:00:00.999Z'"],
    ['"by"', "'account-nobody'"],
    ['role', "'owner'"],
    ['station', "'elsewhere'"],
    ['action', "'person.view'"],
    ['subject_kind', "'squad'"],
    ['subject_id', "'someone'"],
    ['details', "'{}'"],
    ['hash', `'${'0'.repeat(63)}1'`],
  ])('finds an edit of %s', async (column, value) => {
    const here = await place();
    await someEntries(await here.open());
    await here.tamper(`update audit set ${column} = ${value} where sequence = 3`);
    const store = await here.open('b');
    expect(await store.audit.verify()).toEqual({ intact: false, problem: 'edited', sequence: 3 });
  });

  it('finds an edited previous hash', async () => {
    const here = await place();
    await someEntries(await here.open());
    await here.tamper(`update audit set previous_hash = '${'f'.repeat(64)}' where sequence = 3`);
    expect(await (await here.open('b')).audit.verify()).toEqual({ intact: false, problem: 'edited', sequence: 3 });
  });

  it('finds an edit that was hashed anew', async () => {
    const here = await place();
    await someEntries(await here.open());
    const [found] = (await here.run('select * from audit where sequence = 3')) as Record<string, never>[];
    if (found === undefined) throw new Error('no entry');
    const { subject_kind: subjectKind, subject_id: subjectId, previous_hash: previousHash } = found;
    const row = { ...found, subjectKind, subjectId, previousHash, by: 'account-nobody' } as unknown as AuditRow;
    const hash = entryHash({ ...row, sequence: 3 });
    await here.tamper(`update audit set "by" = 'account-nobody', hash = '${hash}' where sequence = 3`);
    expect(await (await here.open('b')).audit.verify()).toEqual({ intact: false, problem: 'broken-link', sequence: 4 });
  });

  it('finds a removed entry, at the start and in the middle', async () => {
    for (const sequence of [1, 4]) {
      const here = await place();
      await someEntries(await here.open());
      await here.tamper(`delete from audit where sequence = ${sequence}`);
      expect(await (await here.open('b')).audit.verify()).toEqual({ intact: false, problem: 'removed', sequence });
    }
  });

  it('finds a removed entry whose followers were numbered anew', async () => {
    const here = await place();
    await someEntries(await here.open());
    const renumber = [4, 5, 6].map((n) => `update audit set sequence = ${n - 1} where sequence = ${n}`);
    await here.tamper('delete from audit where sequence = 3', ...renumber);
    expect(await (await here.open('b')).audit.verify()).toEqual({ intact: false, problem: 'edited', sequence: 3 });
  });

  it('finds two swapped entries', async () => {
    const here = await place();
    await someEntries(await here.open());
    await here.tamper(
      'update audit set sequence = 99 where sequence = 3',
      'update audit set sequence = 3 where sequence = 4',
      'update audit set sequence = 4 where sequence = 99',
    );
    expect(await (await here.open('b')).audit.verify()).toEqual({ intact: false, problem: 'edited', sequence: 3 });
  });

  it('finds a truncated tail by an end kept elsewhere, and only by it', async () => {
    const here = await place();
    const end = await someEntries(await here.open());
    await here.tamper('delete from audit where sequence > 4');
    const store = await here.open('b');
    expect(await store.audit.verify()).toMatchObject({ intact: true, entries: 4 });
    expect(await store.audit.verify(end)).toEqual({ intact: false, problem: 'truncated', sequence: 5 });
  });

  it('finds a chain written anew by an end kept elsewhere', async () => {
    const here = await place();
    const store = await here.open();
    const end = await someEntries(store);
    const forged = { sequence: end.sequence - 1, hash: 'c'.repeat(64) };
    expect(await store.audit.verify(forged)).toEqual({ intact: false, problem: 'rewritten', sequence: 5 });
    await store.settings.set('units.force', 'kg', coach);
    expect(await store.audit.verify(end)).toMatchObject({ intact: true, entries: 7 });
  });

  it('finds records that no longer agree with the trail', async () => {
    const here = await place();
    const store = await here.open();
    const { trial } = await oneTrial(store);
    const result = await store.results.add({ trial: trial.id, document: resultOf(2500), versions }, coach);
    const gone = await store.results.add({ trial: trial.id, document: resultOf(2501), versions }, coach);
    const content = { kind: 'exclude', payload: { category: 'pain' }, reason: 'stopped' } as const;
    const decision = await store.decisions.add({ trial: trial.id, ...content }, coach);
    expect(await store.audit.verifyRecords()).toEqual([]);
    await here.tamper(
      `update results set document = replace(document, '2500', '2900') where id = '${result.id}'`,
      `delete from metric_values where result_id = '${gone.id}'`,
      `delete from results where id = '${gone.id}'`,
      `update decisions set reason = 'felt fine' where id = '${decision.id}'`,
      'update methods set version = 7',
      `update revisions set document = '{}' where subject_kind = 'trial'`,
    );
    const found = await (await here.open('b')).audit.verifyRecords();
    expect(found).toHaveLength(5);
    expect(found).toEqual(
      expect.arrayContaining([
        { table: 'results', id: result.id, problem: 'edited' },
        { table: 'results', id: gone.id, problem: 'removed' },
        { table: 'decisions', id: decision.id, problem: 'edited' },
        { table: 'methods', id: methodHash, problem: 'edited' },
        { table: 'revisions', id: trial.id, problem: 'edited' },
      ]),
    );
  });

  it('cannot be changed through the database either, nor can the other tables that only grow', async () => {
    const here = await place();
    const store = await here.open();
    const { trial } = await oneTrial(store);
    await store.results.add({ trial: trial.id, document: resultOf(2500), versions }, coach);
    await store.decisions.add({ trial: trial.id, kind: 'note', payload: { text: 'x' }, reason: '' }, coach);
    const columns = {
      audit: 'action',
      results: 'verdict',
      metric_values: 'unit',
      methods: 'name',
      decisions: 'reason',
      revisions: 'reason',
    };
    for (const [table, column] of Object.entries(columns)) {
      const rows = await here.run(`select * from ${table}`);
      expect(rows.length).toBeGreaterThan(0);
      await expect(here.run(`update ${table} set ${column} = ${column}`)).rejects.toThrow('append-only');
      await expect(here.run(`delete from ${table}`)).rejects.toThrow('append-only');
      if (here.kind === 'postgres') {
        await expect(here.run(`truncate ${table} cascade`)).rejects.toThrow('append-only');
      }
      expect(await here.run(`select * from ${table}`)).toEqual(rows);
    }
  });

  it('gets an entry from every write, in the same transaction', async () => {
    const here = await place();
    const store = await here.open();
    const trail = async () => (await store.audit.list({ limit: 1_000 })).map(({ action }) => action).reverse();
    const { person, session, trial } = await oneTrial(store);
    await store.people.change(person.id, { notes: 'x' }, coach);
    const squad = await store.squads.add({ name: 'Eight' }, coach);
    await store.squads.change(squad.id, { members: [person.id] }, coach);
    await store.sessions.change(session.id, { notes: 'x' }, coach);
    await store.trials.change(trial.id, { cue: 4 }, coach);
    await store.results.add({ trial: trial.id, document: resultOf(1), versions }, coach);
    await store.decisions.add({ trial: trial.id, kind: 'restore', payload: {}, reason: 'r' }, coach);
    await store.decisions.undo(trial.id, coach);
    await store.decisions.redo(trial.id, coach);
    const template = await store.templates.add({ name: 't', headerSignature: 'h', mapping: 1 }, coach);
    await store.templates.change(template.id, { mapping: 2 }, coach);
    await store.templates.use(template.id, coach);
    await store.settings.set('a', 1, coach);
    expect(await trail()).toEqual(
      [
        'person.add session.add recording.add trial.add method.add person.change squad.add squad.change',
        'session.change trial.change result.add decision.restore decision.undo decision.redo',
        'template.add template.change template.use setting.set',
      ].flatMap((line) => line.split(' ')),
    );
  });

  it('keeps all of a business act or nothing, also when a failure is caught', async () => {
    const store = await (await place()).open();
    const before = await store.audit.last();
    const act = store.transaction(async (inside) => {
      const { id } = await inside.people.add(imre, coach);
      await inside.sessions.add(sessionOf(id), coach);
      throw new Error('the import was cancelled');
    });
    await expect(act).rejects.toThrow('the import was cancelled');
    const careless = store.transaction(async (inside) => {
      await inside.people.add(imre, coach);
      await inside.people.add(imre, coach).catch(() => {});
    });
    await expect(careless).rejects.toEqual(failing('transaction-failed'));
    expect(await store.people.list()).toEqual([]);
    expect(await store.audit.last()).toEqual(before);
    const kept = await store.transaction(async (inside) => {
      const { id } = await inside.people.add(imre, coach);
      return inside.sessions.add(sessionOf(id), coach);
    });
    expect(await store.sessions.get(kept.id)).toEqual(kept);
    expect(await store.audit.verify()).toMatchObject({ intact: true, entries: 2 });
  });

  it('holds no personal value, only ids, field names and hashes', async () => {
    const here = await place();
    const store = await here.open();
    const token = (n: number) => `Zq${n}token`;
    const person = await store.people.add(
      { code: token(1), givenName: token(2), familyName: token(3), notes: token(4), birthDate: '1987-06-05' },
      coach,
    );
    await store.people.change(person.id, { givenName: token(5), notes: token(6) }, coach, { reason: token(7) });
    await store.squads.add({ name: token(8), notes: token(9), members: [person.id] }, coach);
    const session = await store.sessions.add(
      {
        ...sessionOf(person.id),
        rig: token(10),
        notes: token(11),
        setup: { grip: token(12) },
        bodyWeight: { value: 777.25, from: 'given', worn: token(13) },
      },
      coach,
    );
    const { recording } = await store.recordings.add(recordingOf(token(14), `${token(15)}.${token(16)}`), coach);
    const trial = await store.trials.add(
      { session: session.id, effort: 'maximal', recording: recording.sha256, recordingLabel: token(17) },
      coach,
    );
    const note = { kind: 'note', payload: { text: token(18) }, reason: token(19) } as const;
    await store.decisions.add({ trial: trial.id, ...note }, coach);
    await store.decisions.undo(trial.id, coach, token(20));
    await store.methods.add(methodHash, { ...method, name: token(21) }, coach);
    await store.results.add({ trial: trial.id, document: resultOf(2512.75), versions }, coach);
    await store.templates.add({ name: token(22), headerSignature: token(23), mapping: token(24) }, coach);
    await store.settings.set('lab.name', token(25), coach, { reason: token(26) });
    const trail = JSON.stringify(await here.run('select * from audit'));
    expect(trail).not.toMatch(/Zq\d+token/i);
    expect(trail).not.toContain('1987-06-05');
    expect(trail).not.toContain('777.25');
    expect(trail).not.toContain('2512.75');
    // The search itself works: the same token is found where it belongs.
    expect(JSON.stringify(await here.run('select * from revisions'))).toMatch(/Zq5token/);
  });

  it('refuses free text in details', async () => {
    const store = await (await place()).open();
    const subject = { kind: 'person', id: 'x' };
    for (const details of [{ name: 'Imre Oakes' }, { fields: ['ok', 'Ålund'] }, { text: 'x'.repeat(129) }]) {
      await expect(store.audit.add({ action: 'a', subject, details }, coach)).rejects.toEqual(failing('bad-value'));
    }
    await expect(store.audit.add({ action: 'a', subject }, { by: '', station: 's' })).rejects.toEqual(
      failing('bad-value'),
    );
    expect(await store.audit.list()).toEqual([]);
  });
});
