import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, expect, it } from 'vitest';
import { Recomputing } from '../src/work/recompute/recomputing.ts';
import { pauseRun, resumeRun, startRun } from '../src/work/recompute/runs.ts';
import { fillSmallLab, withLab } from './filled-lab.ts';

const folder = mkdtempSync(join(tmpdir(), 'sthene-recomputing-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('holds while plates are measured, goes on after, stops at once and is taken up by the next start', async () => {
  await withLab(folder, async (lab) => {
    await fillSmallLab(lab, 2);
    let measuring = true;
    const work = new Recomputing(lab, () => measuring);
    const { id } = await startRun(lab, work, { method: 'fixed-75', by: 'Rowan' });
    await wait(300);
    expect(work.pace(id)).toEqual({ waiting: true });
    expect(await lab.store.recomputations.counts(id)).toEqual({ trials: 6, done: 0, failed: 0 });
    await pauseRun(lab, id, 'Rowan');
    measuring = false;
    await work.idle();
    expect(await lab.store.recomputations.get(id)).toMatchObject({ state: 'paused' });
    expect((await lab.store.recomputations.counts(id)).done).toBe(0);
    await resumeRun(lab, work, id, 'Rowan');
    await work.stop();
    expect(await lab.store.recomputations.get(id)).toMatchObject({ state: 'running' });
    const next = new Recomputing(lab);
    next.begin(id);
    await next.idle();
    expect(await lab.store.recomputations.get(id)).toMatchObject({ state: 'finished' });
    expect(await lab.store.recomputations.counts(id)).toEqual({ trials: 6, done: 6, failed: 0 });
    expect(await lab.store.recomputations.outcomes(id)).toHaveLength(6);
  });
});
