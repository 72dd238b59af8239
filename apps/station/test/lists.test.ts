import { followRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../../../tests/example-lab.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const inExample = { lab: 'example' } as const;
const by = 'Noor Vale';

describe('lists of everybody', () => {
  let station: StationUnderTest;
  beforeAll(async () => {
    station = await stationUnderTest(await exampleData());
  });
  afterAll(() => station?.end());

  // Kiritimati is at +14:00 all the year: the newest session of the example, in the afternoon of 28 March in Greenwich, is on the 29th.
  it('takes a day from its beginning to its end where the station is', async () => {
    const zone = process.env.TZ;
    process.env.TZ = 'Pacific/Kiritimati';
    try {
      const newest = await station.ask(followRoutes.today, { params: inExample, query: {} });
      expect([newest.on, newest.chosen]).toEqual(['2026-03-29', 'newest']);
      const asked = await station.ask(followRoutes.today, { params: inExample, query: { on: '2026-03-29' } });
      expect(asked.rows).toEqual(newest.rows);
      expect(asked.judged).toBe(newest.judged);
      // The first test day of the example goes on past midnight there, and its last athletes come on the second date.
      const due = async (on: string) => {
        const { rows } = await station.ask(followRoutes.today, { params: inExample, query: { on } });
        return rows.flatMap((row) => (row.kind === 'due' ? row.people : [])).length;
      };
      const before = await due('2023-10-13');
      const first = await due('2023-10-14');
      const second = await due('2023-10-15');
      expect(before).toBe(12);
      expect(first).toBeLessThan(before);
      expect(second).toBeLessThan(first);
    } finally {
      if (zone === undefined) delete process.env.TZ;
      else process.env.TZ = zone;
    }
  });

  it('has whoever came since, and nothing from before a write', async () => {
    const list = () => station.ask(routes.squadTable, { params: inExample, query: {} });
    const [first, again] = [await list(), await list()];
    expect(again).toEqual(first);
    const body = { givenName: 'Sorrel', familyName: 'Vane' };
    const late = await station.ask(routes.createPerson, { params: inExample, body });
    expect((await list()).rows.map(({ person }) => person.id).sort()).toEqual(
      [...first.rows.map(({ person }) => person.id), late.id].sort(),
    );
    const rules = await station.ask(followRoutes.followRules, { params: inExample });
    const weeks = async (dueWeeks: number) => {
      await station.ask(followRoutes.changeFollowRules, { params: inExample, body: { ...rules, dueWeeks, by } });
      return (await list()).rows.map(({ due }) => due);
    };
    expect(await weeks(rules.dueWeeks + 1)).not.toEqual(await weeks(rules.dueWeeks));
  });
});
