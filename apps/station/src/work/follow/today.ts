import type { TodayRow, TodayView } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';
import { chosen } from '../athlete/chosen.ts';
import { circumstancesOf, labHistory, type NoiseHistory, withNoise } from '../athlete/history.ts';
import { judge } from '../athlete/judge.ts';
import { metricFacts } from '../athlete/metrics.ts';
import type { SessionOfMetric } from '../athlete/session-values.ts';
import { ofPeople } from '../athlete/squad.ts';
import { nameOf } from '../people.ts';
import { primaryMetric, readFollowRules } from './rules.ts';

/** Rows a coach is shown at once. */
const most = 5;
const week = 7 * 86_400_000;

interface Asked {
  readonly squad?: string | undefined;
  readonly on?: string | undefined;
}

type Somebody = Extract<TodayRow, { kind: 'invalid' }>['person'];

/**
 * What a coach should act on: tests without a valid effort, changes beyond noise, tests to repeat, athletes who are due; five rows at
 * most. Everybody is judged by the squad's one primary metric, each by the newest session within the lab's number of weeks; how many
 * sure words chance alone would give goes with it.
 */
export async function todayView(lab: OpenLab, asked: Asked): Promise<TodayView> {
  const rules = await readFollowRules(lab);
  const { definition, test, belongs, choice } = await chosen(lab, {
    ...asked,
    metric: primaryMetric(rules, asked.squad === '' ? undefined : asked.squad),
  });
  const people = (await lab.store.people.list({ active: true })).filter(({ id }) => belongs(id));
  const day = await dayLookedAt(lab, asked.on);
  const base = {
    squads: choice.squads,
    ...(choice.squad === undefined ? {} : { squad: choice.squad }),
    ...{ ...day, dueWeeks: rules.dueWeeks },
  };
  const { id, title, unit, better } = metricFacts(definition);
  if (test === undefined)
    return {
      ...{ ...base, metric: { id, title, unit, better }, scale: 'unit' },
      ...{ rows: [], found: 0, judged: 0, byChance: 0 },
    };
  const squads = choice.squad === undefined ? [] : [choice.squad];
  const history = await withNoise(lab, await labHistory(lab, test, definition), squads);
  const until = Date.parse(`${day.on}T23:59:59.999Z`);
  const own = ofPeople({ everyone: history.everyone.filter(({ at }) => Date.parse(at) <= until) });
  const due: (Somebody & { last?: string })[] = [];
  const rows: (TodayRow & { weight: number })[] = [];
  let [judged, byChance] = [0, 0];
  for (const person of people) {
    const somebody = { id: person.id, name: nameOf(person), code: person.code };
    const sessions = own.get(person.id) ?? [];
    const newest = sessions.at(-1);
    if (newest === undefined || until - Date.parse(newest.at) > rules.dueWeeks * week) {
      due.push({ ...somebody, ...(newest === undefined ? {} : { last: newest.at }) });
      continue;
    }
    const found = await rowOf(lab, { history, rules, sessions, newest, test, person: somebody });
    if (found.change !== undefined) {
      judged += 1;
      byChance += found.change.byChance;
    }
    if (found.row !== undefined) rows.push(found.row);
  }
  if (due.length > 0) rows.push({ kind: 'due', people: due, weight: 0 });
  const urgent = rows.toSorted((a, b) => b.weight - a.weight);
  return {
    ...base,
    metric: { id, title, unit: history.unit, better },
    scale: history.scale,
    rows: urgent.slice(0, most).map(({ weight: _, ...row }) => row),
    found: rows.length,
    ...{ judged, byChance },
  };
}

interface Case {
  readonly history: NoiseHistory;
  readonly rules: Awaited<ReturnType<typeof readFollowRules>>;
  readonly sessions: readonly SessionOfMetric[];
  readonly newest: SessionOfMetric;
  readonly test: string;
  readonly person: Somebody;
}

/** The one row of an athlete, if there is one; an invalid test comes before everything it could say, then sure words by their size. */
async function rowOf(lab: OpenLab, { history, rules, sessions, newest, test, person }: Case) {
  const row = { person, test, session: newest.session, at: newest.at };
  if (newest.value === undefined) return { row: { ...row, kind: 'invalid', weight: 1000 } as const, change: undefined };
  const pair = sessions.filter(({ value, unit }) => value !== undefined && unit === history.unit).slice(-2);
  const known = await circumstancesOf(lab, pair);
  const { changes } = judge(
    history,
    sessions,
    sessions.map((one) => known[pair.indexOf(one)]),
    rules,
    ['last'],
  );
  const [change] = changes;
  const beyond = change === undefined ? 0 : Math.abs(change.difference) / change.detectable;
  if (change !== undefined && (change.word === 'stronger' || change.word === 'weaker'))
    return { row: { ...row, kind: 'changed', change, weight: 500 + beyond } as const, change };
  const why =
    change === undefined
      ? undefined
      : change.word.startsWith('probably')
        ? change.alike === change.word
          ? 'probably'
          : 'not-alike'
        : undefined;
  if (why !== undefined) return { row: { ...row, kind: 'retest', why, change, weight: 200 + beyond } as const, change };
  if (newest.n === 1)
    return {
      row: { ...row, kind: 'retest', why: 'one-effort', ...(change && { change }), weight: 100 + beyond } as const,
      change,
    };
  return { row: undefined, change };
}

/** The day asked for; in the example, whose test days are past, the newest of them; else today. */
async function dayLookedAt(lab: OpenLab, on: string | undefined): Promise<Pick<TodayView, 'on' | 'chosen'>> {
  if (on !== undefined && on !== '') return { on, chosen: 'asked' };
  const newest = lab.demo ? (await lab.store.sessions.list({ limit: 1 })).items[0]?.session.startedAt : undefined;
  return newest === undefined
    ? { on: new Date().toISOString().slice(0, 10), chosen: 'today' }
    : { on: newest.slice(0, 10), chosen: 'newest' };
}
