import { setImmediate as turn } from 'node:timers/promises';
import type { ReceivedOutcome } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';
import { groupBy } from '../group-by.ts';
import type { Incoming } from './incoming.ts';
import { labIdentity } from './lab-identity.ts';

/** Where a value is already, by the value. */
export interface Duplicates {
  readonly found: ReadonlyMap<
    Incoming,
    { readonly where: ReceivedOutcome['duplicates'][number]['where']; session?: string }
  >;
  /** Values of days on which their person has a session of this lab's own. */
  readonly ownDays: number;
}

/**
 * Which values the lab has already: rows of its own that came back, values received before (by their origin, or by person, day, test,
 * metric and value), and values of its own sessions of that day.
 *
 * @param personOf id of the person of a value; only decided ones are looked for
 */
export async function duplicatesOf(
  lab: OpenLab,
  values: readonly Incoming[],
  personOf: (value: Incoming) => string | undefined,
): Promise<Duplicates> {
  const found: Map<Incoming, { where: 'received' | 'own' | 'own-row'; session?: string }> = new Map();
  const mine = await labIdentity(lab);
  const origins = values.flatMap(({ origin }) => origin ?? []);
  const known = await lab.store.received.knownOrigins(origins);
  const results = new Map<string, boolean>();
  for (const [i, value] of values.entries()) {
    if (i % 500 === 0) await turn();
    const { origin, written } = value;
    if (origin !== undefined && known.has(origin)) found.set(value, { where: 'received' });
    else if (origin?.startsWith(`${mine}/`) && (await isOwnRow(lab, origin.slice(mine.length + 1), results)))
      found.set(value, { where: 'own-row' });
    else if (written?.lab === mine && (await isOwnRow(lab, written.row, results)))
      found.set(value, { where: 'own-row' });
  }
  let ownDays = 0;
  const byPerson = groupBy(
    values.filter((value) => !found.has(value)),
    personOf,
  );
  for (const [person, own] of byPerson) {
    if (person === undefined) continue;
    const there = await receivedKeys(lab, person);
    const days = new Set(own.map(({ day, test }) => `${test} ${day}`));
    const measured = await ownKeys(lab, person, days);
    for (const value of own) {
      const key = keyOf(value.test, value.day, value.metric, value.value ?? Number.NaN);
      const session = there.get(key) ?? measured.values.get(key);
      if (measured.days.has(`${value.test} ${value.day}`)) ownDays++;
      if (session !== undefined) found.set(value, { where: there.has(key) ? 'received' : 'own', session });
    }
  }
  return { found, ownDays };
}

/** Ten significant digits: the same value written by another program is the same value. */
const keyOf = (test: string, day: string, metric: string, value: number): string =>
  `${test} ${day} ${metric} ${value.toPrecision(10)}`;

/** Whether a row id is of a result, or of a received value, of this very lab. */
async function isOwnRow(lab: OpenLab, row: string, results: Map<string, boolean>): Promise<boolean> {
  const [result = ''] = row.split('.');
  const known = results.get(result);
  if (known !== undefined) return known;
  const is = (await lab.store.results.get(result)) !== undefined || (await lab.store.received.hasValue(result));
  results.set(result, is);
  return is;
}

async function receivedKeys(lab: OpenLab, person: string): Promise<Map<string, string>> {
  const sessions = await lab.store.received.history({ person });
  return new Map(
    sessions.flatMap(({ session, at, protocol, values }) =>
      values.flatMap(({ metric, value }) =>
        value === undefined ? [] : [[keyOf(protocol, at.slice(0, 10), metric, value), session] as const],
      ),
    ),
  );
}

/** Values of a person's own sessions on the given days. */
async function ownKeys(lab: OpenLab, person: string, asked: ReadonlySet<string>) {
  const days = new Set<string>();
  const values = new Map<string, string>();
  let after: string | undefined;
  do {
    const filter = { person, resultsOnly: false, limit: 500, ...(after === undefined ? {} : { after }) };
    const page = await lab.store.sessions.list(filter);
    for (const { session } of page.items) {
      const day = session.startedAt.slice(0, 10);
      if (!asked.has(`${session.protocol.id} ${day}`)) continue;
      days.add(`${session.protocol.id} ${day}`);
      await turn();
      for (const trial of await lab.store.trials.ofSession(session.id)) {
        const metrics = (await lab.store.results.current(trial.id))?.document.metrics ?? {};
        for (const [metric, measured] of Object.entries(metrics))
          if ('value' in measured) values.set(keyOf(session.protocol.id, day, metric, measured.value), session.id);
      }
    }
    after = page.next;
  } while (after !== undefined);
  return { days, values };
}
