import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { UtcInstant } from '@sthene/core';
import { expect, it } from 'vitest';
import { stationActor as actor } from '../src/labs/open-lab.ts';
import { sessionsPage, sessionView } from '../src/work/sessions.ts';
import { withLab } from './filled-lab.ts';

it('tells the sessions of a day of loaded jumps apart by what was carried', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-loaded-'));
  try {
    await withLab(folder, async (lab) => {
      const person = await lab.store.people.add({ code: 'WA01', givenName: 'Wren', familyName: 'Alder' }, actor);
      const add = (minute: number, setup: Record<string, number>) =>
        lab.store.sessions.add(
          {
            ...{
              person: person.id,
              protocol: { id: 'countermovement-jump-loaded', version: 1 },
              gravity: 9.80665,
              setup,
            },
            startedAt: `2026-03-02T12:${minute}:00.000Z` as UtcInstant,
          },
          actor,
        );
      const first = await add(10, { load: 20 });
      await add(20, { load: 42.5 });
      await add(30, {});
      const { rows } = await sessionsPage(lab, { offset: 0, limit: 10 });
      expect(rows.map(({ load }) => load)).toEqual([undefined, 42.5, 20]);
      const view = await sessionView(lab, first.id);
      expect([view.load, ...view.sameDay.map(({ load }) => load)]).toEqual([20, 42.5, undefined]);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
