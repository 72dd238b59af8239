import type { AthleteChange, TodayRow, TodayView } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';
import { dateOf, spanOfDay, systemClock } from '../../live/clock.ts';
import { chosen } from '../athlete/chosen.ts';
import { judgeEverybody } from '../athlete/everybody.ts';
import { labHistory } from '../athlete/history.ts';
import { metricFacts } from '../athlete/metrics.ts';
import { remembered, stateOfStore } from '../athlete/remembered.ts';
import type { SessionOfMetric } from '../athlete/session-values.ts';
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
  const day = await dayLookedAt(lab, asked.on);
  return remembered(lab, JSON.stringify(['today', asked.squad, day]), await stateOfStore(lab), () =>
    workOut(lab, asked.squad, day),
  );
}

/** The day that is looked at, and how it came to be that one. */
type Day = Pick<TodayView, 'on' | 'chosen'>;

async function workOut(lab: OpenLab, squad: string | undefined, day: Day): Promise<TodayView> {
  const rules = await readFollowRules(lab);
  const { definition, test, belongs, choice } = await chosen(lab, {
    squad,
    metric: primaryMetric(rules, squad === '' ? undefined : squad),
  });
  const people = (await lab.store.people.list({ active: true })).filter(({ id }) => belongs(id));
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
  const whole = await labHistory(lab, test, definition);
  const until = Date.parse(spanOfDay(day.on)[1]);
  const history = { ...whole, everyone: whole.everyone.filter(({ at }) => Date.parse(at) < until) };
  const due: (Somebody & { last?: string })[] = [];
  const rows: Weighed[] = [];
  const changes: AthleteChange[] = [];
  for (const judged of await judgeEverybody(lab, history, people, { against: 'last', rules })) {
    const person = { id: judged.person.id, name: nameOf(judged.person), code: judged.person.code };
    const newest = judged.sessions.at(-1);
    if (newest === undefined || until - Date.parse(newest.at) > rules.dueWeeks * week) {
      due.push({ ...person, ...(newest === undefined ? {} : { last: newest.at }) });
      continue;
    }
    // A newest test without a value says nothing of a change: the one before it was told of on its own day.
    const change = newest.value === undefined ? undefined : judged.change;
    if (change !== undefined) changes.push(change);
    const row = rowOf(newest, change, { person, test, session: newest.session, at: newest.at });
    if (row !== undefined) rows.push(row);
  }
  if (due.length > 0) rows.push({ kind: 'due', people: due, weight: 0 });
  const urgent = rows.toSorted((a, b) => b.weight - a.weight);
  return {
    ...base,
    metric: { id, title, unit: history.unit, better },
    scale: history.scale,
    rows: urgent.slice(0, most).map(({ weight: _, ...row }) => row),
    found: rows.length,
    judged: changes.length,
    byChance: changes.reduce((sum, change) => sum + change.byChance, 0),
  };
}

type Weighed = TodayRow & { readonly weight: number };

/** The one row of an athlete, if there is one; an invalid test comes before everything it could say, then sure words by their size. */
function rowOf(
  newest: SessionOfMetric,
  change: AthleteChange | undefined,
  row: { readonly person: Somebody; readonly test: string; readonly session: string; readonly at: string },
): Weighed | undefined {
  if (newest.value === undefined) return { ...row, kind: 'invalid', weight: 1000 };
  const beyond = change === undefined ? 0 : Math.abs(change.difference) / change.detectable;
  if (change !== undefined && (change.word === 'stronger' || change.word === 'weaker'))
    return { ...row, kind: 'changed', change, weight: 500 + beyond };
  if (change?.word.startsWith('probably')) {
    const why = change.alike === change.word ? 'probably' : 'not-alike';
    return { ...row, kind: 'retest', why, change, weight: 200 + beyond };
  }
  if (newest.n === 1)
    return { ...row, kind: 'retest', why: 'one-effort', ...(change && { change }), weight: 100 + beyond };
  return undefined;
}

/** The day asked for; in the example, whose test days are past, the newest of them; else today. */
async function dayLookedAt(lab: OpenLab, on: string | undefined): Promise<Day> {
  if (on !== undefined && on !== '') return { on, chosen: 'asked' };
  const newest = lab.demo ? (await lab.store.sessions.list({ limit: 1 })).items[0]?.session.startedAt : undefined;
  return newest === undefined
    ? { on: dateOf(systemClock.wall()), chosen: 'today' }
    : { on: dateOf(newest), chosen: 'newest' };
}
