import { defaultLimits, gravityEntered, judgeCheck, type RigCheckDocument, type UtcInstant } from '@sthene/core';
import { expect, it } from 'vitest';
import type { Store } from '../src/index.ts';
import { coach, onBothEngines } from './engines.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });

/** A plate that shows 1.2 % too much, read once up and down. */
const document: RigCheckDocument = {
  ...{ schema: 'sthene.rig-check/1', plates: ['left'], gravity: gravityEntered(9.81), airDensity: 1.2, masses: [] },
  ...{ limits: defaultLimits, corrected: [], rest: [], taps: [], balance: [], cell: [] },
  readings: (['up', 'down'] as const).flatMap((direction) =>
    [0, 200, 400, 600].map((load) => ({
      ...{ plate: 'left', series: 1, direction, spot: 'centre' as const, load, loadUncertainty: 0.02 },
      ...{ reading: 1.012 * load, origin: 'samples' as const },
    })),
  ),
};

const rigOf = (store: Store) =>
  store.rigs.add({ name: 'Boathouse', letter: 'A', shape: 'circle', sources: ['source'], notes: '' }, coach);

onBothEngines('checks of a rig', (place) => {
  it('are kept with what was read, newest last, and never changed', async () => {
    const here = await place();
    const store = await here.open();
    const rig = await rigOf(store);
    const result = judgeCheck(document);
    const first = await store.rigChecks.add({ rig: rig.id, document, result, note: '' }, coach);
    const second = await store.rigChecks.add({ rig: rig.id, document, result, note: 'again' }, coach);
    const at = '2025-09-01T08:00:00.000Z' as UtcInstant;
    const earlier = await store.rigChecks.add({ rig: rig.id, document, result, note: '', at }, coach);
    expect(earlier.at).toBe(at);
    expect(first).toMatchObject({ rig: rig.id, document, result: { verdict: 'fails' }, by: coach.by });
    // In the order of their making, whenever they were written down.
    expect(await store.rigChecks.ofRig(rig.id)).toEqual([earlier, first, second]);
    expect(await store.rigChecks.get(second.id)).toEqual(second);
    expect(await store.rigChecks.ofRig('none')).toEqual([]);
    await expect(store.rigChecks.add({ rig: 'none', document, result, note: '' }, coach)).rejects.toEqual(
      failing('not-found'),
    );
    await expect(here.run("update rig_checks set verdict = 'passes'")).rejects.toThrow();
    await expect(here.run('delete from rig_checks')).rejects.toThrow();
    expect(await store.audit.verify()).toMatchObject({ intact: true });
    await here.tamper("update rig_checks set verdict = 'passes'");
    expect((await store.audit.verifyRecords()).map(({ table, problem }) => `${table} ${problem}`)).toEqual([
      'rigChecks edited',
      'rigChecks edited',
      'rigChecks edited',
    ]);
  });

  it('lead to corrections, which need a reason and a check of the same rig', async () => {
    const here = await place();
    const store = await here.open();
    const rig = await rigOf(store);
    const check = await store.rigChecks.add({ rig: rig.id, document, result: judgeCheck(document), note: '' }, coach);
    const plates = [{ plate: 'left', gain: 1.012, offset: 0 }];
    const wanted = { rig: rig.id, check: check.id, plates, reason: 'Checked with the club masses.' };
    const kept = await store.rigChecks.correct(wanted, coach);
    const undone = await store.rigChecks.correct({ rig: rig.id, plates: [], reason: 'Repaired.' }, coach);
    expect(await store.rigChecks.corrections(rig.id)).toEqual([kept, undone]);
    expect(kept).toMatchObject(wanted);
    expect(undone.check).toBeUndefined();
    for (const bad of [{ reason: ' ' }, { plates: [{ plate: 'left', gain: 0, offset: 0 }] }])
      await expect(store.rigChecks.correct({ ...wanted, ...bad }, coach)).rejects.toEqual(failing('bad-value'));
    const other = await store.rigs.add(
      { name: 'Second', letter: 'B', shape: 'square', sources: ['source'], notes: '' },
      coach,
    );
    await expect(store.rigChecks.correct({ ...wanted, rig: other.id }, coach)).rejects.toEqual(failing('not-found'));
    await expect(here.run('delete from rig_corrections')).rejects.toThrow();
    expect(await store.audit.verifyRecords()).toEqual([]);
    await here.tamper("update rig_corrections set plates = '[]' where check_id is not null");
    expect(await store.audit.verifyRecords()).toMatchObject([{ table: 'rigCorrections', problem: 'edited' }]);
  });
});
