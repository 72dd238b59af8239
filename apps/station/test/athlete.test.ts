import { ApiProblem, type AthleteView, routes } from '@sthene/contract';
import { fernwater } from '@sthene/core';
import { reliabilityStudy } from '@sthene/core/stats';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../../../tests/example-lab.ts';
import { unlikeness } from '../src/work/athlete/unlike.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const inExample = { lab: 'example' } as const;

describe('an athlete of the example, followed', () => {
  let station: StationUnderTest;
  let people: { readonly id: string; readonly code: string; readonly givenName: string }[] = [];
  beforeAll(async () => {
    station = await stationUnderTest(await exampleData());
    people = await station.ask(routes.people, { params: inExample });
  });
  afterAll(() => station?.end());

  const athlete = (id: string, query: { test?: string; metric?: string } = {}): Promise<AthleteView> =>
    station.ask(routes.athlete, { params: { ...inExample, id }, query });
  const named = (name: string) => people.find(({ givenName }) => givenName === name)?.id as string;

  it('has the sessions of the list, oldest first, each the mean of what counts', async () => {
    const view = await athlete(named('Emeka'));
    const { rows } = await station.ask(routes.sessions, {
      params: inExample,
      query: { person: view.person.id, protocol: view.test },
    });
    const listed = rows.toReversed().map(({ id, peakForce }) => [id, peakForce?.value.toFixed(6), peakForce?.n]);
    expect(view.sessions.map(({ id, value = 0, n }) => [id, value.toFixed(6), n])).toEqual(listed);
    expect(view.sessions.map(({ familiarisation }) => familiarisation)).toEqual([true, ...new Array(7).fill(false)]);
    expect(view.tests.map(({ sessions }) => sessions)).toEqual(
      view.tests.map((one) => one.sessions).sort((a, b) => b - a),
    );
    const best = Math.max(...view.sessions.map(({ value = 0 }) => value));
    expect(view.sessions.find(({ id }) => id === view.best)?.value).toBe(best);
  });

  it('finds about the noise that was simulated', async () => {
    const { noise } = await athlete(named('Emeka'));
    // Each simulated athlete has a day's form of their own SD, as a share of net force; a third of the gross force does not vary.
    const shares = fernwater().people.map(({ typicalError }) => 100 * typicalError);
    expect(noise.squad?.error.value).toBeGreaterThan(0.5 * Math.min(...shares));
    expect(noise.squad?.error.value).toBeLessThan(1.5 * Math.max(...shares));
    expect(noise.squad?.people).toBe(12);
    expect(noise.squad?.interval.low as number).toBeLessThan(noise.squad?.error.value as number);
    const squad = noise.squad?.error.value as number;
    const own = noise.own as { value: number; df: number };
    expect(noise.used?.df).toBe(10 + own.df);
    expect(noise.used?.value).toBeCloseTo(Math.sqrt((10 * squad ** 2 + own.df * own.value ** 2) / (10 + own.df)), 10);
  });

  it('says of each change what its numbers say', async () => {
    const words = new Set<string>();
    for (const { id } of people) {
      const view = await athlete(id);
      const newest = view.sessions.at(-1);
      expect(view.scale).toBe('log');
      for (const change of view.changes) {
        words.add(change.word);
        const behind = view.sessions.filter((one) => change.sessions.includes(one.id));
        const logs = behind.map(({ value = 0 }) => Math.log(value));
        expect(change.value).toBeCloseTo(Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length), 6);
        expect(change.difference).toBeCloseTo((newest?.value as number) - change.value, 6);
        expect(change.percent).toBeCloseTo((100 * change.difference) / change.value, 8);
        expect(change.more + change.less + change.within).toBeCloseTo(1, 10);
        expect(behind.every(({ familiarisation }) => !familiarisation)).toBe(true);
        if (change.unlike.length === 0) expect(change.word).toBe(change.alike);
        if (change.alike === 'stronger') expect(change.more).toBeGreaterThanOrEqual(0.95);
        expect(change.confirmable).toBeGreaterThan(0);
        expect(change.byChance).toBeGreaterThan(0);
        expect(change.byChance).toBeLessThan(0.1);
      }
    }
    expect(words.size).toBeGreaterThan(1);
  });

  it('keeps tests of different kinds apart, and values that are no forces in their unit', async () => {
    const ingrid = named('Ingrid');
    const left = await athlete(named('Saoirse'), { test: 'imtp-left' });
    expect(left.test).toBe('imtp-left');
    expect(left.sessions.map(({ familiarisation }) => familiarisation)).toEqual([true, false, false]);
    expect(left.setupFields.map(({ id }) => id)).toContain('bar_height');
    expect(left.sessions[0]?.setup?.bar_height).toBeGreaterThan(0);
    // Before a second session that is no familiarisation there is nothing to hold a value against.
    expect(left.changes.map(({ reference }) => reference)).not.toContain('mean-of-three');
    const time = await athlete(ingrid, { metric: 'time_to_peak' });
    expect(time.scale).toBe('unit');
    expect(time.changes[0]).not.toHaveProperty('percent');
  });

  it('stands in its squad as its own page says', async () => {
    const table = await station.ask(routes.squadTable, { params: inExample, query: {} });
    expect(table.test).toBe('imtp');
    expect(table.rows).toHaveLength(12);
    const values = table.rows.map(({ value }) => value?.value as number);
    const mean = values.reduce((sum, value) => sum + value, 0) / 12;
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 11);
    for (const row of table.rows) {
      const view = await athlete(row.person.id);
      expect(row.value?.session).toBe(view.sessions.at(-1)?.id);
      expect(row.last).toBe(view.sessions.at(-1)?.at);
      expect(row.change).toEqual(view.changes.find(({ reference }) => reference === 'last'));
      expect(row.z?.value).toBeCloseTo(((row.value?.value as number) - mean) / sd, 8);
      // A percentile of twelve says little.
      expect(row.percentile).toBeUndefined();
    }
    expect(table.words).toBe(table.rows.filter(({ change }) => /^(stronger|weaker)$/.test(change?.word ?? '')).length);
    expect(table.byChance).toBeCloseTo(
      table.rows.reduce((sum, { change }) => sum + (change?.byChance ?? 0), 0),
      10,
    );
    const [four] = table.squads.filter(({ name }) => name === 'Senior four');
    const squad = await station.ask(routes.squadTable, { params: inExample, query: { squad: four?.id } });
    expect([squad.squad, squad.rows.length]).toEqual([four?.id, 4]);
    // The noise is that of the whole lab, the place that of the squad.
    const other = squad.rows[0] as (typeof squad.rows)[number];
    expect(other.change).toEqual(table.rows.find(({ person }) => person.id === other.person.id)?.change);
    expect(other.z?.value).not.toBeCloseTo(
      table.rows.find(({ person }) => person.id === other.person.id)?.z?.value as number,
      3,
    );
  });

  it('says how good the test is from the newest sessions of everybody', async () => {
    const view = await station.ask(routes.reliability, { params: inExample, query: { sessions: 3 } });
    expect([view.test, view.scale, view.sessions, view.people.length]).toEqual(['imtp', 'log', 3, 12]);
    for (const { id, values } of view.people.slice(0, 3)) {
      const { sessions } = await athlete(id);
      const newest = sessions.filter(({ familiarisation }) => !familiarisation).slice(-3);
      expect(values).toEqual(newest.map(({ value }) => value));
    }
    const study = reliabilityStudy(
      view.people.map(({ values }) => values),
      'log',
    );
    expect(study.ok && study.value.error.value).toBeCloseTo(view.study?.error.value as number, 12);
    expect(study.ok && study.value.cv?.high).toBeCloseTo(view.study?.cv?.high as number, 12);
    const few = await station.ask(routes.reliability, { params: inExample, query: { sessions: 20 } });
    expect([few.study, few.reason]).toEqual([undefined, 'too-few-values']);
  });

  it('refuses whom and what it does not know', async () => {
    const refusal = (asking: Promise<unknown>) =>
      asking.then(
        () => undefined,
        (error: unknown) => error instanceof ApiProblem && [error.problem.status, error.problem.code],
      );
    expect(await refusal(athlete('nobody'))).toEqual([404, 'not-found']);
    const nowhere = station.ask(routes.squadTable, { params: inExample, query: { squad: 'nowhere' } });
    expect(await refusal(nowhere)).toEqual([404, 'not-found']);
    expect(await refusal(athlete(named('Ingrid'), { metric: 'shoe_size' }))).toEqual([404, 'not-found']);
    const added = await station.ask(routes.createPerson, {
      params: inExample,
      body: { givenName: 'Wren', familyName: 'Alder' },
    });
    const empty = await athlete(added.id);
    expect(empty).toMatchObject({ tests: [], sessions: [], changes: [], reason: 'too-few-values' });
  });
});

describe('what differs between two sessions', () => {
  const session = (setup: Record<string, string | number | boolean>, gravity = 9.81) =>
    ({ session: { setup, gravity, protocol: { id: 'imtp', version: 1 } }, methods: ['a'] }) as never;
  it('is more than two people measure on one athlete', () => {
    const one = { bar_height: 130, knee_angle: 140, straps: 'straps', bar_pin: '12', notes: 'tired' };
    expect(
      unlikeness(session(one), session({ ...one, bar_height: 132, knee_angle: 144, bar_pin: ' 12 ', notes: 'well' })),
    ).toEqual([]);
    expect(unlikeness(session(one), session({ ...one, knee_angle: 133 }))).toEqual(['Knee angle (180 is straight)']);
    expect(unlikeness(session(one), session({ ...one, straps: 'none', bar_pin: '13' }))).toEqual([
      'Bar pin or hole in the rack',
      'Straps',
    ]);
    expect(unlikeness(session(one), session({}))).toEqual([]);
    expect(unlikeness(session(one), session(one, 9.82))).toEqual(['Local gravity']);
  });
});
