import { type Day, liveRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

describe('a day in heats, with somebody who comes late and somebody who leaves early', () => {
  let station: StationUnderTest;
  let operator: LiveClient;
  let day: Day;
  let people: readonly string[];
  beforeAll(async () => {
    station = await stationUnderTest(undefined, undefined, lockstepPorts());
    await station.ask(routes.createLab, { params: inLab, body: {} });
    people = await addPeople(station);
    const rig = await addRig(station, 'A', virtual(15));
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: {
        date: '2026-03-02',
        tests: [twoPulls],
        rigs: [rig],
        people: people.slice(0, 2),
        handsFree: true,
        heatSize: 2,
        by,
      },
    });
    operator = await LiveClient.join(station.address, 'viewer', 'tablet-1');
  });
  afterAll(async () => {
    operator?.close();
    await station.end();
  });
  const verdicts = () => operator.of('verdict').map(({ verdict }) => verdict.person.name.split(' ')[0]);
  const inDay = () => ({ ...inLab, id: day.id });

  it('calls the second heat when nobody of the first has an effort left', { timeout: 240_000 }, async () => {
    await station.ask(liveRoutes.openDay, { params: inDay(), body: { by } });
    await operator.until(() => verdicts().includes('Heron'), 60);
    const late = await station.ask(liveRoutes.addEntry, {
      params: inDay(),
      body: { person: { id: people[2] as string }, by },
    });
    expect(late.entries.map(({ heat }) => heat)).toEqual([1, 1, 2]);
    expect(late.forecast.heats?.map(({ heat }) => heat)).toEqual([2]);
    const heron = late.entries[1]?.id as string;
    await expect
      .poll(
        () =>
          station
            .ask(liveRoutes.changeEntry, { params: { ...inLab, id: heron }, body: { state: 'left', by } })
            .then(() => 'gone')
            .catch((error: { code?: string }) => error.code),
        { timeout: 240_000 },
      )
      .toBe('gone');
    await operator.until(() => verdicts().filter((name) => name === 'Otter').length === 2, 60);
    expect(verdicts()).toEqual(['Wren', 'Heron', 'Wren', 'Otter', 'Otter']);
  });

  it('is one group again when asked, also while it runs', async () => {
    const changed = await station.ask(liveRoutes.changeDay, { params: inDay(), body: { heatSize: null, by } });
    expect(changed.heatSize).toBeUndefined();
    expect(changed.entries.every(({ heat }) => heat === undefined)).toBe(true);
  });
});
