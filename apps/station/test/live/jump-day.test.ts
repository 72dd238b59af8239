import { type Day, liveRoutes, routes, type ToOperator } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { expectSameReplayed } from './replayed.ts';
import { addPeople, addRig, by, inLab, virtual } from './set-up.ts';
import { expectSameAgain } from './stored.ts';

/** Short rests, so that a day fits into a test. */
const twoJumps = {
  test: 'countermovement-jump',
  efforts: [{ kind: 'maximal' as const }, { kind: 'maximal' as const }],
  rest: { minimum: 15, maximum: 600 },
};
const weights = [640, 860, 1010];

/** Every number that was sent, but those that count messages or tell a time. */
function numbersIn(value: unknown, name = ''): number[] {
  if (typeof value === 'number') return name === 'sequence' || name === 'at' || name === 'expires' ? [] : [value];
  if (Array.isArray(value)) return value.flatMap((one) => numbersIn(one, name));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, one]) => numbersIn(one, key));
}

describe('a hands-free day of countermovement jumps on virtual plates', () => {
  let station: StationUnderTest;
  let operator: LiveClient;
  let wall: LiveClient;
  let day: Day;
  beforeAll(async () => {
    station = await stationUnderTest(undefined, undefined, lockstepPorts());
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const people = await addPeople(station);
    const rig = await addRig(station, 'A', virtual(15, 'fernwater-jumpers'));
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [twoJumps], rigs: [rig], people, handsFree: true, by },
    });
    operator = await LiveClient.join(station.address, 'operator', 'tablet-1');
    wall = await LiveClient.join(station.address, 'wall', 'wall-1');
    await operator.probe();
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
  });
  afterAll(async () => {
    operator?.close();
    wall?.close();
    await station?.end();
  });

  const verdicts = () => operator.of('verdict').map(({ verdict }) => verdict);
  const newestDay = () =>
    operator.messages.findLast((one): one is Extract<ToOperator, { type: 'day' }> => one.type === 'day')?.day;

  it('shows the cautions of jumping', () => {
    expect(day.cautions.join(' ')).toMatch(/landings/);
  });

  it('runs to its end by itself', { timeout: 240_000 }, async () => {
    await operator.until(() => new Set(verdicts().map(({ trial }) => trial)).size >= 6, 200);
    await operator.until(() => newestDay()?.entries.every(({ state }) => state === 'done') ?? false, 30);
    const order = verdicts().map(({ person }) => person.name.split(' ')[0]);
    for (const name of ['Wren', 'Heron', 'Otter'])
      expect(order.filter((one) => one === name).length).toBeGreaterThanOrEqual(2);
  });

  it('tells the jump as it goes on', () => {
    const stages = operator.of('phase').flatMap(({ floor }) => (floor.phase === 'jump' ? [floor.jump?.stage] : []));
    for (const stage of ['go', 'flight', 'landing', 'still'] as const) expect(stages).toContain(stage);
    expect(operator.of('phase').every(({ floor }) => floor.phase !== 'pull')).toBe(true);
    expect(operator.of('phase').find(({ floor }) => floor.phase === 'jump')?.floor.jump?.kind).toBe('countermovement');
  });

  it("gives the height against the athlete's own within a second", () => {
    for (const { tookMs, values, evidence } of verdicts()) {
      expect(tookMs).toBeLessThan(1000);
      expect(values.slice(0, 2).map(({ metric }) => metric)).toEqual(['jump_height', 'time_to_take_off']);
      expect(values[0]?.value).toBeGreaterThan(0.25);
      expect(values[0]?.value).toBeLessThan(0.42);
      expect(evidence.takeOff).toBeLessThan(evidence.touchdown ?? 0);
    }
    expect(verdicts().at(-1)?.values[0]?.history?.n).toBeGreaterThanOrEqual(1);
    // The stumble of the second: said, and left to the checks.
    const stumbled = verdicts().find(({ reasons }) => reasons.some(({ check }) => check === 'not-still'));
    expect(stumbled?.person.name).toBe('Heron Birch');
  });

  it('shows the wall the height, and nothing a mass could be worked out from', () => {
    type Said = { type: string; rigs?: { jump?: boolean; stage?: string; result?: { height?: number } }[] };
    const said = wall.walls as unknown as Said[];
    expect(said.some(({ type }) => type === 'wall-envelope')).toBe(false);
    const rigs = said.flatMap((one) => one.rigs ?? []);
    expect(rigs.some(({ stage }) => stage === 'flight')).toBe(true);
    const heights = rigs.flatMap(({ result }) => result?.height ?? []);
    expect(Math.max(0, ...heights)).toBeGreaterThan(0.25);
    expect(rigs.every(({ result }) => !(result !== undefined && 'highest' in result))).toBe(true);
    const numbers = numbersIn(said);
    expect(numbers.length).toBeGreaterThan(100);
    for (const weight of weights)
      for (const of of [weight, weight / 9.80665])
        expect(numbers.filter((value) => Math.abs(value - of) < 0.05 * of)).toEqual([]);
  });

  it('stores what the analysis of the stored recording gives, to the last digit', async () => {
    const kept = await expectSameAgain(station.folder, 6);
    for (const { stored } of kept) expect(stored.test).toBe('countermovement-jump');
  });

  it('is the same day when its journal is run again', async () => {
    const kept = await expectSameAgain(station.folder, 6);
    await station.ask(liveRoutes.closeDay, { params: { ...inLab, id: day.id }, body: { by } });
    await expectSameReplayed(station.folder, kept.length);
  });
});
