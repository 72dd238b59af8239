import type { SquadTable } from '@sthene/contract';
import { sdOf } from '@sthene/core';
import { standing } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { nameOf } from '../people.ts';
import { type Asked, chosen } from './chosen.ts';
import { circumstancesOf, labHistory, withNoise } from './history.ts';
import { judge } from './judge.ts';
import { metricFacts } from './metrics.ts';
import type { SessionOfMetric } from './session-values.ts';

/**
 * Where everybody of a squad stands in one metric: the newest value, its place in the squad, and what may be said of the change since the
 * session before.
 */
export async function squadTable(lab: OpenLab, asked: Asked): Promise<SquadTable> {
  const { definition, test, belongs, choice } = await chosen(lab, asked);
  const people = (await lab.store.people.list({ active: true })).filter(({ id }) => belongs(id));
  if (test === undefined)
    return { ...choice, metric: metricFacts(definition), scale: 'unit', rows: [], words: 0, byChance: 0 };
  const history = await withNoise(lab, await labHistory(lab, test, definition));
  const own = new Map<string, SessionOfMetric[]>();
  for (const one of history.everyone) own.set(one.person, [...(own.get(one.person) ?? []), one]);
  const newestOf = (person: string) =>
    own.get(person)?.findLast(({ value, unit }) => value !== undefined && unit === history.unit);
  const group = people.flatMap(({ id }) => newestOf(id)?.value ?? []);
  const spread = group.length > 1 ? sdOf(group) : 0;
  const rows = await Promise.all(
    people.map(async (person): Promise<SquadTable['rows'][number]> => {
      const sessions = own.get(person.id) ?? [];
      const newest = newestOf(person.id);
      const row = {
        person: { id: person.id, name: nameOf(person), code: person.code },
        sessions: sessions.length,
        ...(sessions.length === 0 ? {} : { last: (sessions.at(-1) as SessionOfMetric).at }),
      };
      if (newest?.value === undefined) return row;
      const place = spread > 0 ? standing(newest.value, group) : undefined;
      // Only against the session before: of the others nothing has to be known.
      const pair = sessions.filter(({ value, unit }) => value !== undefined && unit === history.unit).slice(-2);
      const known = await circumstancesOf(lab, pair);
      const judged = judge(
        history,
        sessions,
        sessions.map((one) => known[pair.indexOf(one)]),
      );
      const change = judged.changes.find(({ reference }) => reference === 'last');
      return {
        ...row,
        value: { value: newest.value, session: newest.session, n: newest.n },
        ...(place?.ok
          ? {
              z: place.value.z,
              ...(place.value.percentile === undefined ? {} : { percentile: place.value.percentile.value }),
            }
          : {}),
        ...(change === undefined ? {} : { change }),
      };
    }),
  );
  const changes = rows.flatMap(({ change }) => change ?? []);
  return {
    ...choice,
    test,
    metric: { ...metricFacts(definition), unit: history.unit },
    scale: history.scale,
    rows,
    words: changes.filter(({ word }) => word === 'stronger' || word === 'weaker').length,
    byChance: changes.reduce((sum, { byChance }) => sum + byChance, 0),
  };
}
