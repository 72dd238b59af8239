import { rmSync } from 'node:fs';
import { liveRoutes, routes } from '@sthene/contract';
import { afterEach, expect, it } from 'vitest';
import type { LiveLab } from '../../src/live/live-lab.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

let station: StationUnderTest | undefined;
let folder = '';
afterEach(async () => {
  await station?.close();
  rmSync(folder, { recursive: true, force: true });
});

it('makes an effort again that the database did not take, although the day was ended well', {
  timeout: 240_000,
}, async () => {
  const ports = lockstepPorts();
  let live: LiveLab | undefined;
  const watch = (lab: Parameters<NonNullable<typeof ports.watch>>[0]) => {
    ports.watch?.(lab);
    live = lab as LiveLab;
  };
  const first = await stationUnderTest(undefined, undefined, { ...ports, watch });
  station = first;
  folder = first.folder;
  await first.ask(routes.createLab, { params: inLab, body: {} });
  const people = await addPeople(first);
  const rig = await addRig(first, 'A', virtual(15));
  const onePull = { ...twoPulls, efforts: [{ kind: 'maximal' as const }] };
  const day = await first.ask(liveRoutes.createDay, {
    params: inLab,
    body: { date: '2026-03-02', tests: [onePull], rigs: [rig], people: people.slice(0, 2), handsFree: true, by },
  });
  const viewer = await LiveClient.join(first.address, 'viewer', 'tablet-1');
  const { recordings } = (live as unknown as LiveLab).lab.store;
  const add = recordings.add.bind(recordings);
  let refused = 0;
  recordings.add = (...one) => (refused++ === 0 ? Promise.reject(new Error('database or disk is full')) : add(...one));
  const inDay = { ...inLab, id: day.id };
  await first.ask(liveRoutes.openDay, { params: inDay, body: { by } });
  await viewer.until(() => viewer.of('alert').some(({ alert }) => alert.code === 'not-kept'), 60);
  // Whoever is due next, perhaps the same person again, is kept.
  await viewer.until(() => refused > 1, 60);
  await expect
    .poll(() => first.ask(liveRoutes.closeDay, { params: inDay, body: { by } }).then(({ status }) => status), {
      timeout: 60_000,
    })
    .toBe('closed');
  const before = await first.ask(routes.sessions, { params: inLab });
  viewer.close();
  await first.close();

  station = await stationUnderTest(folder, undefined, lockstepPorts());
  const again = station;
  await expect
    .poll(
      async () => (await again.ask(routes.sessions, { params: inLab })).rows.reduce((sum, one) => sum + one.trials, 0),
      {
        timeout: 60_000,
      },
    )
    .toBe(before.rows.reduce((sum, one) => sum + one.trials, 0) + 1);
});
