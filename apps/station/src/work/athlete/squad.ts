import type { SquadTable, SquadTableRow } from '@sthene/contract';
import { sdOf, type UtcInstant } from '@sthene/core';
import { type Reference, standing } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { dateOf, systemClock } from '../../live/clock.ts';
import { readFollowRules } from '../follow/rules.ts';
import { nameOf } from '../people.ts';
import { availabilityOf, positionsOf } from './availability.ts';
import { type Asked, chosen } from './chosen.ts';
import { judgeEverybody } from './everybody.ts';
import { labHistory } from './history.ts';
import { metricFacts } from './metrics.ts';
import { remembered, stateOfStore } from './remembered.ts';
import type { SessionOfMetric } from './session-values.ts';

/** Values a small figure of an athlete shows. */
const longestTrail = 12;

/**
 * Where everybody of a squad stands in one metric: the newest value, its place in the squad, and what may be said of the change against
 * the reference asked for, the session before unless said otherwise. Worked out once, until something is kept or a new day begins.
 *
 * @param mayKnowGates whether who asks may be told what stands in the way of an effort: it is about health
 */
export async function squadTable(
  lab: OpenLab,
  asked: Asked & { readonly against?: Reference | undefined; readonly trails?: 'true' | 'false' | undefined },
  mayKnowGates = false,
): Promise<SquadTable> {
  const { squad, test, metric, against = 'last', trails = 'false' } = asked;
  const day = dateOf(systemClock.wall());
  const key = JSON.stringify(['table', squad, test, metric, against, trails, mayKnowGates]);
  return remembered(lab, key, `${await stateOfStore(lab)} ${day}`, () =>
    workOut(lab, { squad, test, metric, against, trails: trails === 'true' }, day, mayKnowGates),
  );
}

async function workOut(
  lab: OpenLab,
  { against, trails, ...asked }: Asked & { readonly against: Reference; readonly trails: boolean },
  day: string,
  mayKnowGates: boolean,
): Promise<SquadTable> {
  const { definition, test, belongs, choice } = await chosen(lab, asked);
  if (test === undefined)
    return { ...choice, metric: metricFacts(definition), scale: 'unit', against, rows: [], words: 0, byChance: 0 };
  const people = (await lab.store.people.list({ active: true })).filter(({ id }) => belongs(id));
  const history = await labHistory(lab, test, definition);
  const rules = await readFollowRules(lab);
  const judged = await judgeEverybody(lab, history, people, { against, rules });
  const group = judged.flatMap(({ valued }) => valued.at(-1)?.value ?? []);
  const spread = group.length > 1 ? sdOf(group) : 0;
  const positions = await positionsOf(lab, day);
  const gates = mayKnowGates ? await lab.store.gates.ofEverybody() : undefined;
  const rows = judged.map(({ person, sessions, valued, change, error }): SquadTableRow => {
    const [last, newest, position] = [sessions.at(-1), valued.at(-1), positions.get(person.id)];
    const place =
      newest?.value !== undefined && spread > 0 ? standing(newest.value, group, undefined, 'quick') : undefined;
    return {
      person: { id: person.id, name: nameOf(person), code: person.code },
      sessions: sessions.length,
      ...(last === undefined ? {} : lastAndDue(last.at, rules.dueWeeks)),
      ...(trails ? { trail: trailOf(valued) } : {}),
      ...(person.sex === undefined ? {} : { sex: person.sex }),
      ...(position === undefined ? {} : { position }),
      ...(gates === undefined ? {} : availabilityOf(person, gates.get(person.id) ?? [], test, day)),
      ...(newest?.value === undefined ? {} : { value: { value: newest.value, session: newest.session, n: newest.n } }),
      ...(place?.ok
        ? {
            z: place.value.z,
            ...(place.value.percentile === undefined ? {} : { percentile: place.value.percentile.value }),
          }
        : {}),
      ...(change === undefined ? {} : { change }),
      ...(error === undefined ? {} : { error }),
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

const trailOf = (valued: readonly SessionOfMetric[]) =>
  valued.slice(-longestTrail).flatMap(({ at, value }) => (value === undefined ? [] : [{ at, value }]));

const lastAndDue = (last: string, weeks: number) => ({
  last,
  due: dateOf(new Date(Date.parse(last) + weeks * 7 * 86_400_000).toISOString() as UtcInstant),
});
