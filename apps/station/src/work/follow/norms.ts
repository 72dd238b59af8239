import type { NormsView } from '@sthene/contract';
import { meanOf, sdOf } from '@sthene/core';
import { fewestForPercentile } from '@sthene/core/stats';
import type { Person } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { type Asked, chosen } from '../athlete/chosen.ts';
import { ofPeople } from '../athlete/everybody.ts';
import { labHistory } from '../athlete/history.ts';
import { metricFacts } from '../athlete/metrics.ts';

type Band = NormsView['groups'][number]['band'];
const bands: readonly Band[] = ['under-16', '16-17', '18-34', '35-and-over', 'unknown'];
const sexes = ['female', 'male', 'other', undefined] as const;
const shares = [0.1, 0.25, 0.5, 0.75, 0.9];

/**
 * The lab's own values as norms: the newest value of each athlete by sex and age on that day, with n. No table of another lab is mixed
 * in; percentiles only from twenty athletes on.
 */
export async function normsView(lab: OpenLab, asked: Omit<Asked, 'squad'>): Promise<NormsView> {
  const { definition, test, choice } = await chosen(lab, asked);
  const { tests, metrics } = choice;
  const metric = metricFacts(definition);
  if (test === undefined) return { tests, metrics, metric, groups: [] };
  const history = await labHistory(lab, test, definition);
  const people = new Map((await lab.store.people.list({ active: true })).map((one) => [one.id, one]));
  const values = [...ofPeople(history)].flatMap(([id, own]) => {
    const person = people.get(id);
    const newest = own.findLast(({ value, unit }) => value !== undefined && unit === history.unit);
    return person === undefined || newest?.value === undefined
      ? []
      : [{ value: newest.value, sex: person.sex, band: bandOf(person, newest.at) }];
  });
  const groups = sexes.flatMap((sex) =>
    bands.flatMap((band) => {
      const group = values.filter((one) => one.sex === sex && one.band === band).map(({ value }) => value);
      return group.length === 0 ? [] : [{ ...(sex === undefined ? {} : { sex }), band, ...summary(group) }];
    }),
  );
  return { tests, test, metrics, metric: { ...metric, unit: history.unit }, groups };
}

function summary(group: readonly number[]) {
  const sorted = group.toSorted((a, b) => a - b);
  return {
    n: group.length,
    mean: meanOf(group),
    ...(group.length < 2 ? {} : { sd: sdOf(group) }),
    ...(group.length < fewestForPercentile ? {} : { percentiles: shares.map((share) => quantile(sorted, share)) }),
  };
}

/** Hazen's quantile, the inverse of the percentile rank used for athletes: value i (from 1) of n stands at (i - 1/2) / n. */
function quantile(sorted: readonly number[], share: number): number {
  const at = Math.min(Math.max(share * sorted.length - 0.5, 0), sorted.length - 1);
  const [low, high] = [sorted[Math.floor(at)] as number, sorted[Math.ceil(at)] as number];
  return low + (at - Math.floor(at)) * (high - low);
}

function bandOf({ birthDate }: Person, at: string): Band {
  if (birthDate === undefined) return 'unknown';
  const years = Number(at.slice(0, 4)) - Number(birthDate.slice(0, 4)) - (at.slice(5, 10) < birthDate.slice(5) ? 1 : 0);
  return years < 16 ? 'under-16' : years < 18 ? '16-17' : years < 35 ? '18-34' : '35-and-over';
}
