import { liveRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { guide } from './guide.ts';
import { LiveClient } from './live-client.ts';
import { addPeople, addRig, by, inLab, virtual } from './set-up.ts';

let station: StationUnderTest;
let tablet: LiveClient;
let rig: string;
let entry: string | undefined;
/** The clock as the tablet reports it, ms. */
let told = 0;

beforeAll(async () => {
  station = await stationUnderTest();
  await station.ask(routes.createLab, { params: inLab, body: {} });
  const [person = ''] = await addPeople(station);
  // As fast as life: only then a device can say in time when a cue was heard.
  rig = await addRig(station, 'A', virtual(1));
  const one = { test: 'imtp', efforts: [{ kind: 'maximal' as const }], rest: { minimum: 20, maximum: 600 } };
  const day = await station.ask(liveRoutes.createDay, {
    params: inLab,
    body: { date: '2026-03-02', tests: [one], rigs: [rig], people: [person], handsFree: false, by },
  });
  entry = day.entries[0]?.id;
  tablet = await LiveClient.join(station.address, 'operator', 'tablet-1');
  await tablet.probe();
  told = tablet.offset;
  tablet.send({ type: 'probe', id: 'told', t0: performance.now(), last: { offset: told, roundTrip: 3 } });
  await tablet.next('probe', ({ id }) => id === 'told');
  tablet.send({ type: 'take-controls' });
  await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
  await tablet.next('rig', ({ rig: view }) => view.state === 'measuring');
}, 60_000);
afterAll(async () => {
  tablet?.close();
  await station?.end();
});

it('keeps with the trial which device gave the cue, how long that took and how well it is known', {
  timeout: 120_000,
}, async () => {
  const guided = guide(tablet, rig, () => entry);
  const { id, at } = await tablet.next('cue', ({ sound }) => sound === 'go', 0, 90);
  // Heard 40 ms after the station asked, 12.5 ms of that in the output.
  tablet.send({
    type: 'cue-sounded',
    cue: id,
    at: at - told + 40,
    way: 'voice',
    delay: 12.5,
    delayFrom: 'measured',
  });
  const { verdict } = await tablet.next('verdict', () => true, 0, 60);
  guided.stop();
  const params = { ...inLab, id: verdict.trial };
  const trial = () => station.ask(routes.trial, { params }).catch(() => undefined);
  await expect.poll(async () => (await trial())?.id, { timeout: 20_000 }).toBe(verdict.trial);
  const { cueHeard } = (await trial()) ?? {};
  expect(cueHeard).toMatchObject({ way: 'voice', delay: 12.5, delayFrom: 'measured', clockWithin: 1.5 });
  // The device is named; the station asked a moment before it told the room.
  expect(cueHeard?.device).toMatch(/\w/);
  expect(cueHeard?.after).toBeGreaterThanOrEqual(40);
});
