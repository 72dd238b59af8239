import { rmSync } from 'node:fs';
import { liveRoutes, routes } from '@sthene/contract';
import { afterEach, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

let station: StationUnderTest | undefined;
afterEach(async () => {
  await station?.close();
  if (station !== undefined) rmSync(station.folder, { recursive: true, force: true });
});

it('shows on the open day at once what is decided on the screen of an effort', { timeout: 240_000 }, async () => {
  const here = await stationUnderTest(undefined, undefined, lockstepPorts());
  station = here;
  await here.ask(routes.createLab, { params: inLab, body: {} });
  const people = await addPeople(here);
  const rig = await addRig(here, 'A', virtual(15));
  const onePull = { ...twoPulls, efforts: [{ kind: 'maximal' as const }] };
  const day = await here.ask(liveRoutes.createDay, {
    params: inLab,
    body: { date: '2026-03-02', tests: [onePull], rigs: [rig], people: people.slice(0, 1), handsFree: true, by },
  });
  const inDay = { ...inLab, id: day.id };
  const entry = async () => (await here.ask(liveRoutes.day, { params: inDay })).entries[0];
  const viewer = await LiveClient.join(here.address, 'viewer', 'tablet-1');
  await here.ask(liveRoutes.openDay, { params: inDay, body: { by } });
  // The set is through, and nothing else happens on this day.
  await expect.poll(async () => (await entry())?.remaining.length, { timeout: 120_000 }).toBe(0);
  await expect.poll(async () => (await entry())?.rig, { timeout: 60_000 }).toBeUndefined();
  const trial = (await entry())?.efforts.find(({ state }) => state === 'counts')?.trial ?? '';
  const stateOf = async () => (await entry())?.efforts.find((one) => one.trial === trial)?.state;
  const body = { kind: 'exclude' as const, category: 'slack' as const, reason: 'bar not taken up', by };
  await here.ask(routes.decide, { params: { ...inLab, id: trial }, body });
  await expect.poll(stateOf).toBe('excluded');
  expect((await entry())?.remaining.length).toBeGreaterThan(0);
  const told = viewer
    .of('day')
    .at(-1)
    ?.day?.entries[0]?.efforts.find((one) => one.trial === trial);
  expect(told?.state).toBe('excluded');
  await here.ask(routes.undo, { params: { ...inLab, id: trial }, body: { by } });
  await expect.poll(stateOf).toBe('counts');
  viewer.close();
});
