import { liveRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

describe('a hands-free day of three on virtual plates', () => {
  let station: StationUnderTest;
  let operator: LiveClient;
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: {} });
  });
  afterAll(async () => {
    operator?.close();
    await station.end();
  });

  it('runs to its end and stores every effort', { timeout: 90_000 }, async () => {
    const people = await addPeople(station);
    const rig = await addRig(station, 'A', virtual(20));
    const day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [twoPulls], rigs: [rig], people, handsFree: true, by },
    });
    operator = await LiveClient.join(station.address, 'operator', 'tablet-1');
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    await operator.until(() => operator.of('verdict').length >= 6, 60);
    console.log(
      operator
        .of('verdict')
        .map(({ verdict }) => [
          verdict.person.name,
          verdict.verdict,
          verdict.reasons.map((r) => r.check),
          verdict.tookMs,
        ]),
    );
  });
});
