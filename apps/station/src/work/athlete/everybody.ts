import type { AthleteChange, FollowRules } from '@sthene/contract';
import { type Reference, referenceSessions } from '@sthene/core/stats';
import type { Person } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { seasonOf } from '../follow/rules.ts';
import { groupBy } from '../group-by.ts';
import { circumstancesOf, dayOf, type LabHistory, noiseBySquads } from './history.ts';
import { judge } from './judge.ts';
import type { SessionOfMetric } from './session-values.ts';

/** One of many athletes in one metric. */
export interface JudgedPerson {
  readonly person: Person;
  /** Every session of the test, oldest first. */
  readonly sessions: readonly SessionOfMetric[];
  /** Those with a value in the unit that is judged. */
  readonly valued: readonly SessionOfMetric[];
  readonly change?: AthleteChange;
  /** Error the athlete is judged by, on the scale. */
  readonly error?: number;
}

/**
 * Judges the newest session of each of many athletes as their own pages do, each by the noise of their own squads. What sessions depended
 * on is asked for all at once, and only of the newest and those it is held against.
 */
export async function judgeEverybody(
  lab: OpenLab,
  history: LabHistory,
  people: readonly Person[],
  { against, rules }: { readonly against: Reference; readonly rules: FollowRules },
): Promise<JudgedPerson[]> {
  const own = ofPeople(history);
  const cases = people.map((person) => {
    const sessions = own.get(person.id) ?? [];
    const valued = sessions.filter(({ value, unit }) => value !== undefined && unit === history.unit);
    return { person, sessions, valued, compared: comparedOf(valued, against, rules) };
  });
  const asked = cases.flatMap(({ compared }) => compared);
  const known = new Map((await circumstancesOf(lab, asked)).map((one) => [one.session.id, one]));
  const noiseOf = await noiseBySquads(lab, history);
  const squads = await lab.store.squads.list();
  const judged: JudgedPerson[] = [];
  for (const { person, sessions, valued, compared } of cases) {
    if (valued.length === 0) {
      judged.push({ person, sessions, valued });
      continue;
    }
    const noise = await noiseOf(squads.flatMap(({ id, members }) => (members.includes(person.id) ? [id] : [])));
    const circumstances = sessions.map((one) => (compared.includes(one) ? known.get(one.session) : undefined));
    const { changes, noise: used } = judge(noise, sessions, circumstances, rules, [against]);
    judged.push({
      ...{ person, sessions, valued },
      ...(changes[0] === undefined ? {} : { change: changes[0] }),
      ...(used.used === undefined ? {} : { error: used.used.value }),
    });
  }
  return judged;
}

/** Sessions of each person, oldest first. */
export const ofPeople = ({ everyone }: Pick<LabHistory, 'everyone'>): Map<string, SessionOfMetric[]> =>
  groupBy(everyone, ({ person }) => person);

/** The newest session and those it is held against. */
function comparedOf(
  sessions: readonly SessionOfMetric[],
  against: Reference,
  rules: FollowRules,
): readonly SessionOfMetric[] {
  const newest = sessions.at(-1);
  if (newest === undefined) return [];
  const days = sessions.map(({ at, familiarisation }) => ({ day: dayOf(at), value: 0, first: familiarisation }));
  const behind = referenceSessions(days, against, seasonOf(rules, newest.at));
  return [...behind.map((at) => sessions[at] as SessionOfMetric), newest];
}
