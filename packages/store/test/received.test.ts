import type { UtcInstant } from '@sthene/core';
import { expect, it } from 'vitest';
import type { NewReceivedImport, NewReceivedValue, Store } from '../src/index.ts';
import { coach, onBothEngines } from './engines.ts';
import { fileOf, imre, oneTrial, tamsin } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });
const value = (row: number, peak: number, more: Partial<NewReceivedValue> = {}): NewReceivedValue => ({
  row,
  position: row - 1,
  of: 'trial',
  metric: 'peak_force',
  value: peak,
  unit: 'N',
  given: { value: `${peak / 1000}`, unit: 'kN' },
  facts: {},
  ...more,
});

async function twoPeople(store: Store) {
  const one = await store.people.add(imre, coach);
  const two = await store.people.add(tamsin, coach);
  return [one.id, two.id] as const;
}

const session = (
  person: string,
  day: string,
  values: readonly NewReceivedValue[],
  methodLabel = 'boathouse, 2019',
) => ({
  person,
  protocol: { id: 'imtp', version: 1 },
  startedAt: `${day}T12:00:00.000Z` as UtcInstant,
  timeKnown: false,
  methodLabel,
  gravity: 9.80665,
  values,
});

const table = (sessions: NewReceivedImport['sessions'], text = 'athlete,peak\n'): NewReceivedImport => ({
  kind: 'table',
  bytes: fileOf(text),
  fileName: 'Årsprøver 2019.csv',
  mapping: { header: 1 },
  sessions,
});

onBothEngines('received values', (place) => {
  it('come back as given with their file byte for byte, also after a restart', async () => {
    const here = await place();
    const first = await here.open();
    const [one, two] = await twoPeople(first);
    const { received, sessions } = await first.received.add(
      table([
        session(one, '2019-03-01', [
          value(2, 2481.0000000000005),
          value(3, 2512, { facts: { verdict: 'counts' } }),
          value(3, 0, { metric: 'rfd_0_100', value: undefined as never, reason: 'onset-not-found', unit: 'N/s' }),
        ]),
        session(two, '2019-03-02', [value(4, -0.1)], 'not known'),
      ]),
      coach,
    );
    expect(received).toMatchObject({ sessions: 2, values: 4, takenBack: false, revision: 1 });
    await first.close();
    const store = await here.open('b');
    expect(await store.received.list()).toEqual([received]);
    expect(await store.received.ofFile(received.file)).toEqual([received]);
    expect(await store.received.bytes(received.id)).toEqual(fileOf('athlete,peak\n'));
    const kept = await store.received.ofSession(sessions[0] as string);
    expect(kept.map(({ row, metric, value: got, reason }) => [row, metric, got ?? reason])).toEqual([
      [2, 'peak_force', 2481.0000000000005],
      [3, 'peak_force', 2512],
      [3, 'rfd_0_100', 'onset-not-found'],
    ]);
    expect(kept[1]?.facts).toEqual({ verdict: 'counts' });
    expect(await store.received.session(sessions[1] as string)).toEqual({
      session: sessions[1],
      import: received.id,
      methodLabel: 'not known',
      timeKnown: false,
    });
    expect((await store.sessions.get(sessions[0] as string))?.resultsOnly).toBe(true);
    expect(await store.recordings.verify()).toEqual([]);
    expect(await store.audit.verifyRecords()).toEqual([]);
  });

  it('are found by person, metric and test, and never among the results of trials', async () => {
    const store = await (await place()).open();
    const { person } = await oneTrial(store);
    await store.received.add(
      table([session(person.id, '2020-01-02', [value(2, 2500)]), session(person.id, '2019-01-02', [value(3, 2400)])]),
      coach,
    );
    const query = { person: person.id, metric: 'peak_force', protocol: 'imtp' };
    expect((await store.received.history(query)).map(({ at, values }) => [at.slice(0, 10), values[0]?.value])).toEqual([
      ['2019-01-02', 2400],
      ['2020-01-02', 2500],
    ]);
    expect(await store.received.history({ ...query, protocol: 'isometric-squat' })).toEqual([]);
    expect(await store.results.history({ of: 'everyone', metric: 'peak_force' })).toEqual([]);
    expect((await store.sessions.list({ resultsOnly: true })).total).toBe(2);
    expect((await store.sessions.list({ resultsOnly: false })).total).toBe(1);
  });

  it('are taken back as a whole and put back, and every state is kept', async () => {
    const store = await (await place()).open();
    const [one] = await twoPeople(store);
    const { received } = await store.received.add(
      table([session(one, '2019-03-01', [value(2, 2400, { origin: 'lab-1/row-1' })])]),
      coach,
    );
    expect(await store.received.knownOrigins(['lab-1/row-1', 'other'])).toEqual(new Set(['lab-1/row-1']));
    const back = await store.received.takeBack(received.id, true, coach, { reason: 'wrong column' });
    expect(back).toMatchObject({ takenBack: true, revision: 2 });
    const query = { person: one, metric: 'peak_force', protocol: 'imtp' };
    expect(await store.received.history(query)).toEqual([]);
    expect((await store.sessions.list()).total).toBe(0);
    expect(await store.received.knownOrigins(['lab-1/row-1'])).toEqual(new Set());
    await store.received.takeBack(received.id, false, coach);
    expect((await store.sessions.list()).total).toBe(1);
    expect(await store.received.history(query)).toHaveLength(1);
    const states = await store.revisions.of<{ takenBack: boolean }>('received', received.id);
    expect(states.map(({ state, reason }) => [state.takenBack, reason])).toEqual([
      [false, ''],
      [true, 'wrong column'],
      [false, ''],
    ]);
    await expect(store.received.takeBack('nothing', true, coach)).rejects.toEqual(failing('not-found'));
  });

  it('only grow, and an edit with other tools is told', async () => {
    const here = await place();
    const store = await here.open();
    const [one] = await twoPeople(store);
    const { received } = await store.received.add(table([session(one, '2019-03-01', [value(2, 2400)])]), coach);
    await expect(here.run('update received_values set value = 9999')).rejects.toThrow();
    await expect(here.run('delete from received_sessions')).rejects.toThrow();
    const off =
      here.kind === 'sqlite'
        ? 'drop trigger received_values_no_update'
        : 'alter table received_values disable trigger received_values_no_change';
    await here.run(off, 'update received_values set value = 2600');
    expect(await store.audit.verifyRecords()).toEqual([
      { table: 'receivedValues', id: received.id, problem: 'edited' },
    ]);
  });

  it('refuse a label that is empty and a value that is no number, and keep nothing then', async () => {
    const store = await (await place()).open();
    const [one] = await twoPeople(store);
    for (const bad of [
      session(one, '2019-03-01', [value(2, 2400)], ' '),
      session(one, '2019-03-01', [value(2, Number.NaN)]),
    ])
      await expect(store.received.add(table([session(one, '2019-03-02', []), bad]), coach)).rejects.toEqual(
        failing('bad-value'),
      );
    const orphan = session('nobody', '2019-03-01', [value(2, 2400)]);
    await expect(store.received.add(table([session(one, '2019-03-02', []), orphan]), coach)).rejects.toEqual(
      failing('refers-to-nothing'),
    );
    expect((await store.sessions.list()).total).toBe(0);
    expect(await store.received.list()).toEqual([]);
  });
});
