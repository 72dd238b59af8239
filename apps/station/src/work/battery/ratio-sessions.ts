import { usualDaysApart } from '@sthene/contract';
import type { LabHistory } from '../athlete/history.ts';
import type { SessionOfMetric } from '../athlete/session-values.ts';
import { groupBy } from '../group-by.ts';
import { ratioDefinitions } from './definitions.ts';
import { matches } from './match.ts';

/** Everybody's sessions of one value of one test. */
type ValuesOf = (test: string, metric: string) => Promise<Pick<LabHistory, 'everyone'>>;

/**
 * Everybody's ratios as sessions of one of their tests, so that they are followed like any value: noise, change and standing come from the
 * ratios themselves. Tests may lie as far apart as is usual; the index is that of the countermovement jump.
 *
 * @param test whose session stands for the pair
 * @returns in order of time
 */
export async function ratioSessions(id: string, test: string, valuesOf: ValuesOf): Promise<SessionOfMetric[]> {
  const definition = ratioDefinitions.find((one) => one.id === id);
  if (definition === undefined) throw new Error(`there is no ratio ${id}`);
  const sides = await Promise.all(
    definition.sides.map(async ({ tests: [first = ''], metric }) => ({
      test: first,
      own: byPerson((await valuesOf(first, metric)).everyone),
    })),
  );
  const place = Math.max(
    0,
    sides.findIndex((one) => one.test === test),
  );
  const people = [...(sides[0]?.own.keys() ?? [])];
  return people
    .flatMap((person) =>
      matches(
        sides.map(({ own }) => own.get(person) ?? []),
        usualDaysApart,
      ).flatMap(({ sessions }) => joined(sessions, place, definition.oneMethod)),
    )
    .sort((a, b) => a.at.localeCompare(b.at));
}

/** Sessions with a value, in the unit of the first, of each person. */
function byPerson(everyone: readonly SessionOfMetric[]): Map<string, SessionOfMetric[]> {
  const unit = everyone.find((one) => one.unit !== undefined)?.unit;
  const valued = everyone.filter((one) => one.value !== undefined && one.unit === unit);
  return groupBy(valued, ({ person }) => person);
}

function joined(sessions: readonly SessionOfMetric[], place: number, oneMethod: boolean): SessionOfMetric[] {
  const [over, under] = sessions.map(({ value = 0 }) => value);
  const stands = sessions[place];
  const methods = [...new Set(sessions.flatMap((one) => one.methods))].sort();
  if (stands === undefined || over === undefined || under === undefined || !(over > 0 && under > 0)) return [];
  if (oneMethod && methods.length > 1) return [];
  return [
    {
      ...stands,
      ...{ value: over / under, unit: '1', sd: undefined, methods },
      sessions: sessions.map(({ session }) => session),
      n: Math.min(...sessions.map(({ n }) => n)),
      results: sessions.flatMap(({ results }) => results),
      familiarisation: sessions.some(({ familiarisation }) => familiarisation),
    },
  ];
}
