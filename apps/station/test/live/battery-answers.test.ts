import { type Day, liveRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { addPeople, addRig, by, inLab, virtual } from './set-up.ts';

const jump = 'countermovement-jump';
const pull = 'imtp';
const efforts = [{ kind: 'maximal' as const }];
const rest = { minimum: 10, maximum: 600 };
const answers = (pain: boolean) => ({ pain, injury: false, screened: true, consent: true, warmedUp: true, note: '' });

describe('what an athlete answers in a battery', () => {
  let station: StationUnderTest;
  let day: Day;
  let people: string[] = [];
  let rigs: string[] = [];
  const at = () => ({ params: { ...inLab, id: day.id } });
  const entryOf = (test: string, person = people[0]) =>
    day.entries.find((one) => one.test === test && one.person.id === person);
  const idOf = (test: string) => ({ params: { ...inLab, id: entryOf(test)?.id ?? '' } });
  const answer = async (test: string, pain: boolean) => {
    day = await station.ask(liveRoutes.changeEntry, { ...idOf(test), body: { readiness: answers(pain), by } });
  };
  const allowed = (test: string, person = people[0]) => entryOf(test, person)?.allowed;

  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: {} });
    people = await addPeople(station);
    rigs = [
      await addRig(station, 'A', virtual(1, 'fernwater-jumpers', 7)),
      await addRig(station, 'B', virtual(1, 'fernwater-jumpers', 8)),
    ];
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: {
        date: '2026-03-02',
        tests: [
          { test: jump, efforts, rest },
          { test: pull, efforts, rest },
        ],
        rigs,
        people: people.slice(0, 2),
        battery: 'by-person',
        testRigs: { [jump]: [rigs[0] ?? ''], [pull]: [rigs[1] ?? ''] },
        by,
      },
    });
  });
  afterAll(() => station?.end());

  it('holds for a test that is added later, and for nobody else', async () => {
    day = await station.ask(liveRoutes.removeEntry, { ...idOf(pull) });
    await answer(jump, true);
    expect([allowed(jump), entryOf(pull)]).toEqual(['nothing', undefined]);
    day = await station.ask(liveRoutes.addEntry, {
      ...at(),
      body: { person: { id: people[0] ?? '' }, test: pull, walkIn: false, by },
    });
    expect(allowed(pull)).toBe('nothing');
    expect(entryOf(pull)?.readiness).toMatchObject({ pain: true, by });
    expect(allowed(pull, people[1])).toBe('maximal');
  });

  it('is what was answered last, in whichever test', async () => {
    await answer(pull, false);
    expect([allowed(jump), allowed(pull)]).toEqual(['maximal', 'maximal']);
    await answer(jump, true);
    expect([allowed(jump), allowed(pull)]).toEqual(['nothing', 'nothing']);
  });

  it('stays when the test is taken off at which it was asked', async () => {
    day = await station.ask(liveRoutes.removeEntry, { ...idOf(jump) });
    expect(allowed(pull)).toBe('nothing');
  });

  it('stays with each test once they stand apart, and is then answered for each', async () => {
    day = await station.ask(liveRoutes.changeDay, { ...at(), body: { battery: null, by } });
    expect(allowed(pull)).toBe('nothing');
    day = await station.ask(liveRoutes.addEntry, {
      ...at(),
      body: { person: { id: people[0] ?? '' }, test: jump, walkIn: false, by },
    });
    await answer(pull, false);
    await answer(jump, true);
    expect([allowed(jump), allowed(pull)]).toEqual(['nothing', 'maximal']);
  });

  it('tests that stay keep their rigs; naming rigs names them for all', async () => {
    const [a = '', b = ''] = rigs;
    const bound = () => day.tests.map(({ test, rigs: own }) => [test, own]);
    const change = async (body: object) => {
      day = await station.ask(liveRoutes.changeDay, { ...at(), body: { ...body, by } });
    };
    await change({
      tests: [
        { test: jump, efforts: [...efforts, ...efforts], rest },
        { test: pull, efforts, rest },
      ],
    });
    expect(bound()).toEqual([
      [jump, [a]],
      [pull, [b]],
    ]);
    await change({ testRigs: { [jump]: [b] } });
    expect(bound()).toEqual([
      [jump, [b]],
      [pull, undefined],
    ]);
  });
});
