import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { virtualDescription } from '@sthene/capture';
import { afterEach, describe, expect, it } from 'vitest';
import { type StationCore, stationCore } from './station-core.ts';
import { withStore } from './stored.ts';

let core: StationCore | undefined;
let folder = '';
afterEach(async () => {
  await core?.close();
  core = undefined;
  rmSync(folder, { recursive: true, force: true });
});

describe('walk-ins on plates that run fast', () => {
  it('do each effort once and in order, however long it takes to know who they are', { timeout: 240_000 }, async () => {
    folder = mkdtempSync(join(tmpdir(), 'sthene-walk-ins-'));
    const plan = {
      efforts: [
        { kind: 'submaximal' as const, share: 0.5 },
        { kind: 'submaximal' as const, share: 0.75 },
        { kind: 'maximal' as const },
      ],
      rest: { minimum: 5, maximum: 600 },
    };
    const sources = [virtualDescription('Virtual plates', 'fernwater-three', 7, 20)];
    const slow = (known: StationCore['live']) => {
      const { walkIns } = known.nextUp;
      if (walkIns === undefined) throw new Error('nobody knows walk-ins');
      known.nextUp.walkIns = {
        async entryFor(weighing, day) {
          // At this pace the effort would be over before it is known whose it is.
          await wait(800);
          return walkIns.entryFor(weighing, day);
        },
      };
    };
    core = await stationCore(folder, { sources, handsFree: true, plan }, {}, slow);
    const verdicts = () => core?.of('verdict').map(({ verdict }) => verdict) ?? [];
    await core.until(() => verdicts().length >= 4, 75);
    const byPerson = new Map<string, (number | string)[]>();
    for (const { person, effort } of verdicts())
      byPerson.set(person.code, [...(byPerson.get(person.code) ?? []), effort.share ?? effort.kind]);
    for (const efforts of byPerson.values()) expect(efforts).toEqual([0.5, 0.75, 'maximal'].slice(0, efforts.length));
    expect(byPerson.size).toBe(2);
    expect(core.of('alert').map(({ alert }) => alert.code)).not.toContain('not-kept');
    await core.close();
    await withStore(folder, async (store) => {
      const { items } = await store.sessions.list({ limit: 50 });
      for (const { session } of items) {
        const trials = await store.trials.ofSession(session.id);
        const kinds = trials.map(({ effort }) => effort).slice(0, 3);
        expect(['submaximal', 'submaximal', 'maximal']).toEqual(expect.arrayContaining(kinds));
        expect(kinds.slice(0, 2)).toEqual(['submaximal', 'submaximal'].slice(0, kinds.length));
      }
    });
  });
});
