import { expect, it } from 'vitest';
import { coach, onBothEngines } from './engines.ts';
import { imre, oneTrial } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });

onBothEngines('notes of an athlete', (place) => {
  it('come back as written, also after a restart, and leave the list when taken back', async () => {
    const here = await place();
    const first = await here.open();
    const { id: person } = await first.people.add({ ...imre, code: 'FW-09' }, coach);
    const injury = { person, kind: 'injury', from: '2025-03-20', text: 'left knee', limb: 'left' } as const;
    const hurt = await first.notes.add(injury, coach);
    const target = { metric: 'peak_force', value: 3400.5, unit: 'N' };
    const goal = await first.notes.add(
      { person, kind: 'target', from: '2025-01-01', until: '2026-01-01', text: '', test: 'imtp', target },
      coach,
    );
    await first.close();
    const store = await here.open('b');
    expect(await store.notes.list({ person })).toEqual([goal, hurt]);
    expect(await store.notes.list({ kind: 'injury' })).toEqual([{ ...injury, ...hurt, revision: 1, active: true }]);
    await store.notes.change(hurt.id, { active: false }, coach, { reason: 'another athlete' });
    expect(await store.notes.list()).toEqual([goal]);
    expect(await store.notes.get(hurt.id)).toMatchObject({ active: false, revision: 2 });
    expect((await store.revisions.of('note', hurt.id)).map(({ reason }) => reason)).toEqual(['', 'another athlete']);
    expect(await store.audit.verify()).toMatchObject({ intact: true });
  });

  it('refuse what says nothing, an injury without a limb, a target without a value', async () => {
    const store = await (await place()).open();
    const { id: person } = await store.people.add({ ...imre, code: 'FW-09' }, coach);
    const base = { person, from: '2025-03-20', text: 'x' } as const;
    for (const wrong of [
      { ...base, kind: 'remark', text: ' ' },
      { ...base, kind: 'injury' },
      { ...base, kind: 'remark', limb: 'left' },
      { ...base, kind: 'target' },
      { ...base, kind: 'target', target: { metric: 'peak_force', value: Number.NaN, unit: 'N' } },
      { ...base, kind: 'position', from: '2025-02-30' },
    ] as const)
      await expect(store.notes.add(wrong, coach)).rejects.toEqual(failing('bad-value'));
    await expect(store.notes.add({ ...base, kind: 'remark', person: 'nobody' }, coach)).rejects.toEqual(
      failing('refers-to-nothing'),
    );
    expect(await store.notes.list()).toEqual([]);
  });
});

onBothEngines('blind studies', (place) => {
  it('keep the last reading of each reader and trial, with the one before it in the history, until closed', async () => {
    const store = await (await place()).open();
    const { trial } = await oneTrial(store);
    const study = await store.blindStudies.add({ title: 'Onsets', trials: [trial.id], readers: ['A', 'B'] }, coach);
    const reading = { study: study.id, trial: trial.id, reader: 0, onset: 1204, verdict: 'counts' } as const;
    const first = await store.blindStudies.read(reading, coach);
    await store.blindStudies.read({ ...reading, reader: 1, verdict: 'repeat' }, coach);
    const { onset: _, ...none } = reading;
    const second = await store.blindStudies.read({ ...none, verdict: 'look-again' }, coach);
    expect(second).toMatchObject({ id: first.id, revision: 2, verdict: 'look-again' });
    expect(second.onset).toBeUndefined();
    expect(
      (await store.blindStudies.readings(study.id)).map(({ reader, verdict, onset }) => [reader, verdict, onset]),
    ).toEqual([
      [0, 'look-again', undefined],
      [1, 'repeat', 1204],
    ]);
    const states = await store.revisions.of<{ onset?: number }>('blind-reading', first.id);
    expect(states.map(({ state }) => state.onset)).toEqual([1204, undefined]);
    await expect(store.blindStudies.read({ ...reading, reader: 2 }, coach)).rejects.toEqual(failing('bad-value'));
    await store.blindStudies.change(study.id, { closed: true }, coach);
    await expect(store.blindStudies.read(reading, coach)).rejects.toEqual(failing('bad-value'));
    expect(await store.blindStudies.list()).toMatchObject([{ id: study.id, closed: true }]);
    await expect(
      store.blindStudies.add({ title: 'Twice', trials: [trial.id, trial.id], readers: ['A', 'B'] }, coach),
    ).rejects.toEqual(failing('bad-value'));
    expect(await store.audit.verify()).toMatchObject({ intact: true });
  });
});

onBothEngines('pages handed out', (place) => {
  it('are kept once, and never changed', async () => {
    const here = await place();
    const store = await here.open();
    const { person, session } = await oneTrial(store);
    const page = {
      kind: 'athlete' as const,
      ...{ person: person.id, session: session.id, test: 'imtp', metric: 'peak_force' },
      ...{ reference: 'last', value: 2500.25, unit: 'N' },
    } as const;
    expect(await store.handedOut.add([page, { ...page, kind: 'squad', word: 'stronger' }], coach)).toBe(2);
    expect(await store.handedOut.add([page], coach)).toBe(0);
    expect(await store.handedOut.add([{ ...page, value: 2500.5 }], coach)).toBe(1);
    const kept = await store.handedOut.list();
    expect(kept.map(({ kind, word, value }) => [kind, word, value]).sort()).toEqual([
      ['athlete', undefined, 2500.25],
      ['athlete', undefined, 2500.5],
      ['squad', 'stronger', 2500.25],
    ]);
    await expect(here.run('delete from handed_out')).rejects.toThrow();
    expect(await store.audit.verify()).toMatchObject({ intact: true });
  });
});
