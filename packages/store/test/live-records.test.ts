import type { UtcInstant } from '@sthene/core';
import { expect, it } from 'vitest';
import type { Repositories } from '../src/index.ts';
import { assistant, coach, onBothEngines } from './engines.ts';
import { imre, oneTrial, tamsin } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });
const at = (time: string) => `2026-03-02T${time}.000Z` as UtcInstant;

/** A planned day of the club with one rig and two people. */
async function plannedDay(store: Repositories) {
  const people = [await store.people.add(imre, coach), await store.people.add(tamsin, coach)] as const;
  const source = await store.sources.add({ name: 'Left plate', description: { rate: 1000 } }, coach);
  const rig = await store.rigs.add(
    { name: 'Boathouse', letter: 'A', shape: 'circle', sources: [source.id], notes: '' },
    coach,
  );
  const day = await store.days.add(
    { date: '2026-03-02', title: 'Squad', plans: [{ test: 'imtp' }], rigs: [rig.id], settings: {}, notes: '' },
    coach,
  );
  const entries = [];
  for (const [i, person] of people.entries())
    entries.push(
      await store.dayEntries.add(
        { day: day.id, person: person.id, position: i + 1, test: 'imtp', walkIn: false },
        coach,
      ),
    );
  return { people, source, rig, day, entries };
}

onBothEngines('live records', (place) => {
  it('come back as added, after a restart too', async () => {
    const here = await place();
    const first = await here.open();
    const made = await plannedDay(first);
    await first.close();
    const store = await here.open('b');
    expect(await store.sources.list()).toEqual([made.source]);
    expect(await store.rigs.list()).toEqual([made.rig]);
    expect(await store.days.list()).toEqual([made.day]);
    expect(made.day.status).toBe('planned');
    expect(await store.dayEntries.ofDay(made.day.id)).toEqual(made.entries);
    expect(await store.dayEntries.get(made.entries[0]?.id ?? '')).toEqual(made.entries[0]);
  });

  it('keep every state with who and why', async () => {
    const store = await (await place()).open();
    const { day, entries } = await plannedDay(store);
    await store.days.change(day.id, { status: 'open', openedAt: at('08:00:00') }, coach);
    const [entry] = entries;
    if (entry === undefined) throw new Error('no entry');
    await store.dayEntries.change(entry.id, { setup: { bar_height: 71 } }, assistant, { reason: 'bar was lowered' });
    await store.dayEntries.change(entry.id, { remaining: [{ kind: 'maximal' }], readiness: { pain: false } }, coach);
    expect(await store.dayEntries.get(entry.id)).toMatchObject({
      revision: 3,
      setup: { bar_height: 71 },
      remaining: [{ kind: 'maximal' }],
      readiness: { pain: false },
    });
    const states = await store.revisions.of<{ setup: object }>('entry', entry.id);
    expect(states.map(({ state, by, reason }) => [state.setup, by, reason])).toEqual([
      [{}, coach.by, ''],
      [{ bar_height: 71 }, assistant.by, 'bar was lowered'],
      [{ bar_height: 71 }, coach.by, ''],
    ]);
    expect((await store.audit.verify()).intact).toBe(true);
    expect(await store.audit.verifyRecords()).toEqual([]);
  });

  it('put an entry between two others and leave out who was removed', async () => {
    const store = await (await place()).open();
    const { day, entries, people } = await plannedDay(store);
    const between = await store.dayEntries.add(
      { day: day.id, person: people[0].id, position: 1.5, test: 'isometric-squat', walkIn: true },
      coach,
    );
    const order = async () => (await store.dayEntries.ofDay(day.id)).map(({ id }) => id);
    expect(await order()).toEqual([entries[0]?.id, between.id, entries[1]?.id]);
    await store.dayEntries.change(between.id, { state: 'removed' }, coach);
    expect(await order()).toEqual([entries[0]?.id, entries[1]?.id]);
  });

  it('keep the order in which gates of one day came: the later word holds', async () => {
    const store = await (await place()).open();
    const { id: person } = await store.people.add(imre, coach);
    const added: string[] = [];
    for (let i = 0; i < 12; i++) {
      const gate = {
        person,
        kind: 'consent',
        granted: i % 2 === 0,
        limb: 'both',
        from: '2026-03-02',
        note: '',
      } as const;
      added.push((await store.gates.add(gate, coach)).id);
    }
    // Ids that came out sorted by chance would prove nothing.
    expect(added).not.toEqual([...added].sort());
    expect((await store.gates.ofPerson(person)).map(({ id }) => id)).toEqual(added);
  });

  it('keep gates per limb, test and day, and lift them by name', async () => {
    const store = await (await place()).open();
    const { id: person } = await store.people.add(imre, coach);
    const stop = await store.gates.add(
      { person, kind: 'pain-stop', granted: true, limb: 'left', from: '2026-03-02', until: '2026-03-02', note: '' },
      coach,
    );
    const screening = await store.gates.add(
      { person, kind: 'screening', granted: true, limb: 'both', test: 'imtp', from: '2026-01-01', note: 'form 4' },
      coach,
    );
    const released = { by: 'account-physio', at: at('09:00:00'), reason: 'seen by the physio' };
    await store.gates.change(stop.id, { released }, assistant, { reason: released.reason });
    expect(await store.gates.ofPerson(person)).toEqual([screening, { ...stop, revision: 2, released }]);
    await expect(store.gates.add({ ...screening, from: '2026-02-30' }, coach)).rejects.toEqual(failing('bad-value'));
    await expect(store.gates.add({ ...screening, person: 'nobody' }, coach)).rejects.toEqual(
      failing('refers-to-nothing'),
    );
  });

  it('know a device again', async () => {
    const store = await (await place()).open();
    await store.devices.seen({ id: 'tablet-1', name: 'Tablet', role: 'operator' }, coach);
    const again = await store.devices.seen({ id: 'tablet-1', name: 'Tablet by the rack', role: 'operator' }, coach);
    expect(again.revision).toBe(2);
    expect(await store.devices.list()).toEqual([again]);
    await expect(store.devices.seen({ id: '../x', name: 'x', role: 'wall' }, coach)).rejects.toEqual(
      failing('bad-value'),
    );
  });

  it('find captures that were cut off, and never make two trials of the same samples', async () => {
    const store = await (await place()).open();
    const { rig, day, entries } = await plannedDay(store);
    const capture = await store.captures.add(
      { id: 'capture-7', rig: rig.id, day: day.id, startedAt: at('08:00:00'), journals: ['captures/capture-7/0'] },
      coach,
    );
    expect(capture).toMatchObject({ id: 'capture-7', state: 'running', samples: 0 });
    expect(await store.captures.list({ state: 'running' })).toEqual([capture]);
    await store.captures.change(capture.id, { state: 'recovered', samples: 61_000, endedAt: at('08:01:01') }, coach);
    expect(await store.captures.list({ state: 'running' })).toEqual([]);
    expect(await store.captures.list({ day: day.id })).toHaveLength(1);

    const { trial } = await oneTrial({ ...store, people: { ...store.people, add: async () => imreOf(store) } });
    const origin = {
      trial: trial.id,
      capture: capture.id,
      entry: entries[0]?.id ?? '',
      span: { start: 1000, end: 9000 },
      endedAt: at('08:00:09'),
      facts: { ended: 'released', zeros: { left: 1.25 } },
    };
    const added = await store.origins.add(origin, coach);
    expect(await store.origins.ofTrial(trial.id)).toEqual(added);
    expect(await store.origins.ofCapture(capture.id)).toEqual([added]);
    expect(await store.origins.ofEntry(origin.entry)).toEqual([added]);
    const unloaded = { before: 0, after: 1.5 };
    const reviewed = await store.origins.review(added.id, { ...added.facts, unloaded }, coach);
    expect(await store.origins.ofTrial(trial.id)).toEqual({ ...added, revision: 2, facts: reviewed.facts });
    const other = await store.trials.add({ session: trial.session, effort: 'maximal' }, coach);
    expect(await store.origins.ofTrials([trial.id, other.id])).toEqual(
      new Map([[trial.id, { ...added, revision: 2, facts: reviewed.facts }]]),
    );
    await expect(store.origins.add({ ...origin, trial: other.id }, coach)).rejects.toEqual(failing('already-there'));
  });
});

/** The person who is there already. */
async function imreOf(store: Repositories) {
  const found = await store.people.byCode('FW-01');
  if (found === undefined) throw new Error('no such person');
  return found;
}
