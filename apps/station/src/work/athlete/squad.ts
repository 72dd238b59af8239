import type { FollowRules, SquadTable } from '@sthene/contract';
import { protocolRegistry, sdOf } from '@sthene/core';
import { type Reference, referenceSessions, standing } from '@sthene/core/stats';
import type { Gate, Person } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { standingGates } from '../../live/day/gates.ts';
import { readFollowRules, seasonOf } from '../follow/rules.ts';
import { nameOf } from '../people.ts';
import { type Asked, chosen } from './chosen.ts';
import { circumstancesOf, dayOf, type LabHistory, labHistory, withNoise } from './history.ts';
import { judge } from './judge.ts';
import { metricFacts } from './metrics.ts';
import type { SessionOfMetric } from './session-values.ts';

type Row = SquadTable['rows'][number];

/** Values a small figure of an athlete shows. */
const longestTrail = 12;

/**
 * Where everybody of a squad stands in one metric: the newest value, its place in the squad, and what may be said of the change since the
 * session before.
 *
 * @param mayKnowGates whether who asks may be told what stands in the way of an effort: it is about health
 */
export async function squadTable(
  lab: OpenLab,
  asked: Asked & { readonly against?: Reference | undefined },
  mayKnowGates = false,
): Promise<SquadTable> {
  const against = asked.against ?? 'last';
  const { definition, test, belongs, choice } = await chosen(lab, asked);
  const people = (await lab.store.people.list({ active: true })).filter(({ id }) => belongs(id));
  if (test === undefined)
    return { ...choice, metric: metricFacts(definition), scale: 'unit', against, rows: [], words: 0, byChance: 0 };
  const squads = choice.squad === undefined ? [] : [choice.squad];
  const history = await withNoise(lab, await labHistory(lab, test, definition), squads);
  const rules = await readFollowRules(lab);
  const own = ofPeople(history);
  const group = people.flatMap(({ id }) => newestOf(own.get(id), history)?.value ?? []);
  const spread = group.length > 1 ? sdOf(group) : 0;
  const positions = await positionsOf(lab);
  // Only the newest session and those it is held against: of the others nothing has to be known.
  const pairs = new Map(people.map(({ id }) => [id, comparedOf(judgedOf(own.get(id) ?? [], history), against, rules)]));
  const known = new Map((await circumstancesOf(lab, [...pairs.values()].flat())).map((one) => [one.session.id, one]));
  const gates = mayKnowGates ? await lab.store.gates.ofEverybody() : undefined;
  const rows = people.map((person): Row => {
    const sessions = own.get(person.id) ?? [];
    const newest = newestOf(sessions, history);
    const position = positions.get(person.id);
    const row = {
      person: { id: person.id, name: nameOf(person), code: person.code },
      sessions: sessions.length,
      ...(sessions.length === 0 ? {} : lastAndDue((sessions.at(-1) as SessionOfMetric).at, rules.dueWeeks)),
      trail: valuesOf(sessions, history).slice(-longestTrail),
      ...(person.sex === undefined ? {} : { sex: person.sex }),
      ...(position === undefined ? {} : { position }),
      ...(gates === undefined ? {} : availabilityOf(person, gates.get(person.id) ?? [], test)),
    };
    if (newest?.value === undefined) return row;
    const place = spread > 0 ? standing(newest.value, group, undefined, 'quick') : undefined;
    const pair = pairs.get(person.id) ?? [];
    const circumstances = sessions.map((one) => (pair.includes(one) ? known.get(one.session) : undefined));
    const judged = judge(history, sessions, circumstances, rules, [against]);
    const [change] = judged.changes;
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
      ...(judged.noise.used === undefined ? {} : { error: judged.noise.used.value }),
    };
  });
  const changes = rows.flatMap(({ change }) => change ?? []);
  return {
    ...choice,
    test,
    metric: { ...metricFacts(definition), unit: history.unit },
    scale: history.scale,
    against,
    rows,
    words: changes.filter(({ word }) => word === 'stronger' || word === 'weaker').length,
    byChance: changes.reduce((sum, { byChance }) => sum + byChance, 0),
  };
}

const lastAndDue = (last: string, weeks: number) => ({
  last,
  due: new Date(Date.parse(last) + weeks * 7 * 86_400_000).toISOString().slice(0, 10),
});

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

/** Sessions of each person, oldest first. */
export function ofPeople({ everyone }: Pick<LabHistory, 'everyone'>): Map<string, SessionOfMetric[]> {
  const own = new Map<string, SessionOfMetric[]>();
  for (const one of everyone) {
    const sessions = own.get(one.person);
    if (sessions === undefined) own.set(one.person, [one]);
    else sessions.push(one);
  }
  return own;
}

const newestOf = (sessions: readonly SessionOfMetric[] | undefined, { unit: judged }: LabHistory) =>
  sessions?.findLast(({ value, unit }) => value !== undefined && unit === judged);

const judgedOf = (sessions: readonly SessionOfMetric[], { unit: judged }: LabHistory) =>
  sessions.filter(({ value, unit }) => value !== undefined && unit === judged);

const valuesOf = (sessions: readonly SessionOfMetric[], { unit: judged }: LabHistory) =>
  sessions.flatMap(({ at, value, unit }) => (value === undefined || unit !== judged ? [] : [{ at, value }]));

/** The newest position of each person that was written down and not ended. */
async function positionsOf(lab: OpenLab): Promise<Map<string, string>> {
  const today = new Date().toISOString().slice(0, 10);
  const notes = await lab.store.notes.list({ kind: 'position' });
  return new Map(
    notes
      .filter(({ from, until }) => from <= today && (until === undefined || until >= today))
      .map(({ person, text }) => [person, text]),
  );
}

/** What a test day would allow today. */
function availabilityOf({ birthDate }: Person, gates: readonly Gate[], test: string): Pick<Row, 'availability'> {
  const protocol = protocolRegistry.get(test);
  if (protocol === undefined) return {};
  const date = new Date().toISOString().slice(0, 10);
  return { availability: standingGates({ gates, protocol, birthDate, date }).allowed };
}
