import { type Day, liveRoutes, type RigFloor, routes, type ToOperator } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OriginFacts } from '../../src/live/rig/keep-trial.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { withStore } from './analysed-again.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { expectSameReplayed } from './replayed.ts';
import { addPeople, addRig, by, inLab, virtual } from './set-up.ts';
import { expectSameAgain } from './stored.ts';

/** One jump and one pull, with short rests so that a day fits into a test; between two tests the longer one holds. */
const jump = {
  test: 'countermovement-jump',
  efforts: [{ kind: 'maximal' as const }],
  rest: { minimum: 10, maximum: 600 },
};
const pull = { test: 'imtp', efforts: [{ kind: 'maximal' as const }], rest: { minimum: 25, maximum: 600 } };

type Battery = NonNullable<Day['battery']>;

interface Running {
  readonly station: StationUnderTest;
  readonly operator: LiveClient;
  readonly rigs: readonly string[];
  readonly day: Day;
}

async function running(battery: Battery, bound: boolean): Promise<Running> {
  const station = await stationUnderTest(undefined, undefined, lockstepPorts());
  await station.ask(routes.createLab, { params: inLab, body: {} });
  const people = await addPeople(station);
  const rigs = [
    await addRig(station, 'A', virtual(15, 'fernwater-jumpers', 7)),
    await addRig(station, 'B', virtual(15, 'fernwater-jumpers', 8)),
  ] as const;
  const [a, b] = rigs;
  const testRigs = bound ? { testRigs: { 'countermovement-jump': [a], imtp: [b] } } : {};
  const day = await station.ask(liveRoutes.createDay, {
    params: inLab,
    body: {
      date: '2026-03-02',
      tests: [jump, pull],
      rigs: [...rigs],
      people,
      handsFree: true,
      battery,
      ...testRigs,
      by,
    },
  });
  const operator = await LiveClient.join(station.address, 'operator', 'tablet-1');
  await operator.probe();
  await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
  return { station, operator, rigs, day };
}

const verdictsOf = ({ operator }: Running) => operator.of('verdict').map(({ verdict }) => verdict);
const daysOf = ({ operator }: Running) =>
  operator.messages
    .filter((one): one is Extract<ToOperator, { type: 'day' }> => one.type === 'day')
    .map(({ day }) => day);
const newestDay = (run: Running) => daysOf(run).at(-1);
const toTheEnd = (run: Running) =>
  run.operator.until(() => newestDay(run)?.entries.every(({ state }) => state === 'done') ?? false, 240);
const floorsOf = ({ operator }: Running): RigFloor[] => operator.of('phase').map(({ floor }) => floor);

/** Turns in which somebody was weighed, by person. */
function weighings(run: Running): Map<string, Set<string>> {
  const seen = new Map<string, Set<string>>();
  for (const { phase, turn } of floorsOf(run)) {
    if (phase !== 'stand-still' || turn === undefined) continue;
    const turns = seen.get(turn.person.name) ?? new Set();
    seen.set(turn.person.name, turns.add(turn.test));
  }
  return seen;
}

/** What every kept effort says of its weight. */
const factsOf = (folder: string) =>
  withStore(folder, async (store) => {
    const { items } = await store.sessions.list({ limit: 50 });
    return Promise.all(
      items.map(async ({ session }) => {
        const trials = await store.trials.ofSession(session.id);
        const origins = await Promise.all(trials.map(({ id }) => store.origins.ofTrial(id)));
        const results = await Promise.all(trials.map(({ id }) => store.results.current(id)));
        return { session, trials, results, facts: origins.map((one) => one?.facts as unknown as OriginFacts) };
      }),
    );
  });

describe('a battery, one athlete through all tests', () => {
  let run: Running;
  beforeAll(async () => {
    run = await running('by-person', false);
  });
  afterAll(async () => {
    run?.operator.close();
    await run?.station.end();
  });

  it('puts everybody on the day with all tests in order', () => {
    const order = run.day.entries.map(({ person, test, battery }) => [person.name.split(' ')[0], test, battery]);
    expect(order).toEqual([
      ['Wren', jump.test, { place: 1, of: 2 }],
      ['Wren', pull.test, { place: 2, of: 2 }],
      ['Heron', jump.test, { place: 1, of: 2 }],
      ['Heron', pull.test, { place: 2, of: 2 }],
      ['Otter', jump.test, { place: 1, of: 2 }],
      ['Otter', pull.test, { place: 2, of: 2 }],
    ]);
    for (const [i, { after }] of run.day.entries.entries())
      expect(after).toBe(i % 2 === 0 ? undefined : run.day.entries[i - 1]?.id);
  });

  it('runs to its end by itself, with nobody in between on a rig', { timeout: 280_000 }, async () => {
    await toTheEnd(run);
    for (const rig of run.rigs) {
      const there = verdictsOf(run).filter((one) => one.rig === rig);
      const people = there.map(({ person }) => person.name);
      // Whoever has left a rig does not come back to it.
      expect(people.filter((name, i) => name !== people[i - 1])).toEqual([...new Set(people)]);
    }
    const rigsOfPerson = new Map<string, Set<string>>();
    for (const { person, rig } of verdictsOf(run))
      rigsOfPerson.set(person.name, (rigsOfPerson.get(person.name) ?? new Set()).add(rig));
    expect([...rigsOfPerson.values()].map((one) => one.size)).toEqual([1, 1, 1]);
  });

  it('weighs everybody once, before the first test, and says so', () => {
    expect([...weighings(run).values()].map((tests) => [...tests])).toEqual([[jump.test], [jump.test], [jump.test]]);
    const notes = floorsOf(run).flatMap(({ turn, weighing }) =>
      turn?.test === pull.test && weighing?.done === true ? [weighing.note] : [],
    );
    expect(new Set(notes)).toEqual(
      new Set(['Not weighed again. The weight stands that was taken with: Countermovement jump.']),
    );
  });

  it('lets nobody step off between the tests: the zero of the pull is that of the jump', async () => {
    for (const { session, facts } of await factsOf(run.station.folder)) {
      if (session.protocol.id !== pull.test) continue;
      const jumps = (await factsOf(run.station.folder)).find(
        (one) => one.session.person === session.person && one.session.protocol.id === jump.test,
      );
      for (const one of facts) expect(one.zeros).toEqual(jumps?.facts.at(-1)?.zeros);
    }
    expect(run.operator.of('phase').some(({ floor }) => floor.now.code === 'next-test')).toBe(true);
  });

  it('keeps where the weight comes from, and what the analysis was given', async () => {
    const all = await factsOf(run.station.folder);
    const pulls = all.filter(({ session }) => session.protocol.id === pull.test);
    expect(pulls).toHaveLength(3);
    for (const { session, facts, results } of pulls) {
      const jumps = all.find((one) => one.session.person === session.person && one.session.protocol.id === jump.test);
      const [first] = jumps?.facts ?? [];
      for (const one of facts) {
        expect(one.weighedBefore).toEqual({ test: jump.test, trial: jumps?.trials[0]?.id });
        expect(one.bodyWeight).toBe(first?.bodyWeight);
        expect(one.weighing).toEqual(first?.weighing);
      }
      expect(session.bodyWeight).toEqual({ value: first?.bodyWeight, from: 'weighing' });
      for (const result of results)
        expect(result?.document.bodyWeight).toMatchObject({
          ok: true,
          value: { value: first?.bodyWeight, from: 'weighing' },
        });
    }
    // A jump is weighed in its own quiet second, and held against the one weighing.
    for (const { results } of all.filter(({ session }) => session.protocol.id === jump.test))
      for (const result of results) {
        expect(result?.document.bodyWeight).toMatchObject({ ok: true, value: { from: 'baseline' } });
        expect(result?.document.checks.weight_agreement?.status).toBe('pass');
      }
  });

  it('rests from the last jump before the pull as the pull asks for', async () => {
    for (const { pulledAfter } of await restsOf(run.station.folder)) expect(pulledAfter).toBeGreaterThanOrEqual(25);
  });

  it('is the same day when it is analysed or its journals are run again', async () => {
    const kept = await expectSameAgain(run.station.folder, 6);
    await run.station.ask(liveRoutes.closeDay, { params: { ...inLab, id: run.day.id }, body: { by } });
    await expectSameReplayed(run.station.folder, kept.length);
  });
});

/** Seconds by the samples of one capture from the end of the last jump to the cue of the first pull. */
async function restsOf(folder: string): Promise<{ readonly person: string; readonly pulledAfter: number }[]> {
  return withStore(folder, async (store) => {
    const { items } = await store.sessions.list({ limit: 50 });
    const found = [];
    for (const { session } of items.filter((one) => one.session.protocol.id === pull.test)) {
      const jumps = items.find((one) => one.session.person === session.person && one.session.protocol.id === jump.test);
      const last = (await store.trials.ofSession(jumps?.session.id ?? '')).at(-1);
      const first = (await store.trials.ofSession(session.id))[0];
      const [before, after] = await Promise.all([
        store.origins.ofTrial(last?.id ?? ''),
        store.origins.ofTrial(first?.id ?? ''),
      ]);
      const landed = (await store.results.current(last?.id ?? ''))?.document.jump?.touchdown ?? 0;
      const cue = (after?.facts as unknown as OriginFacts | undefined)?.cue ?? 0;
      found.push({ person: session.person, pulledAfter: (cue - ((before?.span.start ?? 0) + landed)) / 1000 });
    }
    return found;
  });
}

describe('a battery, one test for all, with jumps on one rig and pulls on the other', () => {
  let run: Running;
  beforeAll(async () => {
    run = await running('by-test', true);
  });
  afterAll(async () => {
    run?.operator.close();
    await run?.station.end();
  });

  it('takes nobody out of the day who is on a rig with another test', { timeout: 60_000 }, async () => {
    const onRig = () => newestDay(run)?.entries.find(({ state }) => state === 'on-rig');
    await run.operator.until(() => onRig() !== undefined, 30);
    const there = onRig();
    const other = newestDay(run)?.entries.find(({ id, person }) => person.id === there?.person.id && id !== there?.id);
    const params = { ...inLab, id: other?.id ?? '' };
    await expect(run.station.ask(liveRoutes.changeEntry, { params, body: { state: 'left', by } })).rejects.toThrow(
      /on the rig/,
    );
  });

  it('keeps each test on its rig and in its order', { timeout: 280_000 }, async () => {
    await toTheEnd(run);
    const [a, b] = run.rigs;
    for (const { rig, turn } of verdictsOf(run)) expect(turn.includes(jump.test) ? a : b).toBe(rig);
    for (const name of new Set(verdictsOf(run).map(({ person }) => person.name))) {
      const tests = verdictsOf(run).flatMap((one) => (one.person.name === name ? [one.turn.includes(jump.test)] : []));
      expect(tests).toEqual([...tests].sort((x, y) => Number(y) - Number(x)));
    }
  });

  it('has nobody on both rigs, and both at work at once', () => {
    const now = new Map<string, RigFloor>();
    let both = false;
    for (const floor of floorsOf(run)) {
      now.set(floor.rig, floor);
      const people = [...now.values()].flatMap(({ turn }) => (turn === undefined ? [] : [turn.person.id]));
      expect(new Set(people).size).toBe(people.length);
      both ||= people.length === 2;
    }
    expect(both).toBe(true);
  });

  it('says who is next on the rig of the next test before they have left the one of their last', () => {
    const due = daysOf(run).flatMap((day) =>
      (day?.next ?? []).flatMap(({ entry, rig }) => {
        const one = day?.entries.find(({ id }) => id === entry);
        const still = day?.entries.find(
          ({ id, person, rig: on }) => person.id === one?.person.id && id !== entry && on !== undefined && on !== rig,
        );
        return still === undefined ? [] : [one?.test];
      }),
    );
    expect(new Set(due)).toEqual(new Set([pull.test]));
  });

  it('lets everybody rest on the way from one rig to the other', () => {
    const [a, b] = run.rigs;
    const { messages } = run.operator;
    /** Samples of rig A that were safe before a message: its plates keep the time of the rest. */
    const samplesAt = (index: number) => {
      const told = messages.slice(0, index).findLast((one) => one.type === 'confirmed' && one.rig === a);
      return told?.type === 'confirmed' ? told.samples : 0;
    };
    const people = [...new Set(verdictsOf(run).map(({ person }) => person.id))];
    expect(people).toHaveLength(3);
    for (const person of people) {
      const jumped = messages.findLastIndex(
        (one) => one.type === 'verdict' && one.verdict.rig === a && one.verdict.person.id === person,
      );
      const came = messages.findIndex(
        (one) => one.type === 'phase' && one.floor.rig === b && one.floor.turn?.person.id === person,
      );
      // What is told as safe is up to a quarter of a second old, which is five seconds of these plates.
      expect((samplesAt(came) - samplesAt(jumped)) / 1000).toBeGreaterThan(15);
    }
  });

  it('weighs again on the other rig and says why', () => {
    for (const tests of weighings(run).values()) expect([...tests]).toEqual([jump.test, pull.test]);
    const notes = floorsOf(run).flatMap(({ turn, weighing }) => (turn?.test === pull.test ? [weighing?.note] : []));
    expect(new Set(notes)).toEqual(new Set(['Weighed again: the test before was on another rig.']));
  });

  it('keeps what it analysed', async () => {
    const kept = await expectSameAgain(run.station.folder, 6);
    await run.station.ask(liveRoutes.closeDay, { params: { ...inLab, id: run.day.id }, body: { by } });
    await expectSameReplayed(run.station.folder, kept.length);
  });
});
