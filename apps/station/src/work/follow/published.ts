import type { PublishedPlace, PublishedView } from '@sthene/contract';
import { conversionFactor, convertible } from '@sthene/core';
import { type PublishedGroup, placeInGroup, publishedFor, publishedGroups } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { type Asked, chosen } from '../athlete/chosen.ts';
import { ofPeople } from '../athlete/everybody.ts';
import { labHistory } from '../athlete/history.ts';
import { metricFacts } from '../athlete/metrics.ts';
import { nameOf } from '../people.ts';

/** What was published of a test and a metric, in the unit of the lab, and whose newest value may be held against it. */
export async function publishedView(lab: OpenLab, asked: Omit<Asked, 'squad'>): Promise<PublishedView> {
  const { definition, test } = await chosen(lab, asked);
  const metric = metricFacts(definition);
  if (test === undefined) return { metric, groups: [], ranges: [], people: [] };
  const history = await labHistory(lab, test, definition);
  const { unit } = history;
  const { groups, ranges } = publishedFor({ test, metric: metric.id, unit });
  const own = ofPeople(history);
  const people = (await lab.store.people.list({ active: true })).flatMap(({ id, givenName, familyName, sex }) => {
    const newest = own.get(id)?.findLast((one) => one.value !== undefined && one.unit === unit);
    return newest?.value === undefined
      ? []
      : [
          {
            id,
            name: nameOf({ givenName, familyName }),
            ...(sex === undefined ? {} : { sex }),
            value: newest.value,
            at: newest.at,
          },
        ];
  });
  return { test, metric: { ...metric, unit }, groups: [...groups], ranges: [...ranges], people };
}

/**
 * Place of one value in one published group. It is computed when somebody asks and kept nowhere.
 *
 * @param unit UCUM code of the value; that of the source where undefined
 */
export function publishedPlace(id: string, value: number, unit: string | undefined): PublishedPlace {
  const group: PublishedGroup | undefined = publishedGroups.find((one) => one.id === id);
  if (group === undefined) throw problems.notFound('published group');
  const from = unit ?? group.unit;
  if (from !== group.unit && !convertible(from, group.unit))
    throw problems.invalid(`This group is in ${group.unit}; ${from} does not measure the same.`);
  const factor = from === group.unit ? 1 : conversionFactor(from, group.unit);
  return { group: id, value, ...placeInGroup(factor * value, group) };
}
