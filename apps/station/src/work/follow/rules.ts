import { type FollowRules, followRules } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { usualMetric } from '../athlete/metrics.ts';

const key = 'follow.rules';
/** Common practice of winter sports and schools in the north; each lab says its own. */
const usual: FollowRules = { seasonStart: '09-01', dueWeeks: 12, primary: {} };

export async function readFollowRules(lab: OpenLab): Promise<FollowRules> {
  const kept = followRules.safeParse((await lab.store.settings.get(key))?.value);
  return kept.success ? kept.data : usual;
}

export async function changeFollowRules(
  lab: OpenLab,
  { by, ...rules }: FollowRules & { readonly by: string },
): Promise<FollowRules> {
  const squads = new Set((await lab.store.squads.list()).map(({ id }) => id));
  for (const [squad, metric] of Object.entries(rules.primary)) {
    if (squad !== '' && !squads.has(squad)) throw problems.notFound('squad');
    if (metricFacts.get(metric) === undefined) throw problems.notFound('metric');
  }
  const day = `2023-${rules.seasonStart}`;
  if (!new Date(`${day}T00:00:00.000Z`).toISOString().startsWith(day))
    throw problems.invalid('A season begins on a day of the calendar.');
  await lab.store.settings.set(key, rules, await lab.actor(by));
  return rules;
}

/** The one value a squad is judged by. */
export const primaryMetric = ({ primary }: FollowRules, squad: string | undefined): string =>
  primary[squad ?? ''] ?? primary[''] ?? usualMetric;

/** The day on which the season of an instant began, as days since 1970. */
export function seasonOf({ seasonStart }: FollowRules, instant: string): number {
  const year = Number(instant.slice(0, 4));
  const began = instant.slice(5, 10) >= seasonStart ? year : year - 1;
  return Date.parse(`${began}-${seasonStart}T00:00:00.000Z`) / 86_400_000;
}
