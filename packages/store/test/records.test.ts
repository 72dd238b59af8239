import type { UtcInstant } from '@sthene/core';
import { expect, it } from 'vitest';
import { assistant, coach, onBothEngines } from './engines.ts';
import {
  fileOf,
  imre,
  method,
  methodHash,
  oneTrial,
  otherMethodHash,
  recordingOf,
  resultOf,
  sessionOf,
  tamsin,
  versions,
} from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });

onBothEngines('records', (place) => {
  it('gives back a person as added, after a restart too', async () => {
    const here = await place();
    const first = await here.open();
    const added = await first.people.add(tamsin, coach);
    expect(added).toEqual({ ...tamsin, id: added.id, revision: 1, notes: '', active: true });
    await first.close();
    const again = await here.open('b');
    expect(await again.people.get(added.id)).toEqual(added);
    expect(await again.people.byCode('FW-02')).toEqual(added);
    expect(await again.people.get('nobody')).toBeUndefined();
  });

  it('clears an optional field and leaves the others', async () => {
    const store = await (await place()).open();
    const { id } = await store.people.add(tamsin, coach);
    const changed = await store.people.change(id, { birthDate: undefined }, coach);
    expect(changed.revision).toBe(2);
    const read = await store.people.get(id);
    expect(read).toEqual({ ...tamsin, birthDate: undefined, id, revision: 2, notes: '', active: true });
    expect(read).not.toHaveProperty('birthDate');
  });

  it('refuses a code that is taken, an unknown person, and a change from an old state', async () => {
    const store = await (await place()).open();
    const { id } = await store.people.add(imre, coach);
    await expect(store.people.add({ ...tamsin, code: 'FW-01' }, coach)).rejects.toEqual(failing('already-there'));
    await expect(store.people.change('nobody', { notes: 'x' }, coach)).rejects.toEqual(failing('not-found'));
    await expect(store.sessions.add(sessionOf('nobody'), coach)).rejects.toEqual(failing('refers-to-nothing'));
    await store.people.change(id, { notes: 'straps forgotten' }, coach, { expected: 1 });
    const late = store.people.change(id, { notes: 'other' }, assistant, { expected: 1 });
    await expect(late).rejects.toEqual(failing('changed-meanwhile'));
    expect((await store.people.get(id))?.notes).toBe('straps forgotten');
    expect(await store.people.list()).toHaveLength(1);
  });

  it.each([
    ['a day that does not exist', { birthDate: '2001-02-29' }],
    ['a day in another form', { birthDate: '1.2.2001' }],
    ['an empty code', { code: ' ' }],
    ['an unknown sex', { sex: 'unknown' as 'other' }],
  ])('refuses %s', async (_, fields) => {
    const store = await (await place()).open();
    await expect(store.people.add({ ...imre, ...fields }, coach)).rejects.toEqual(failing('bad-value'));
    expect(await store.people.list()).toEqual([]);
    expect(await store.audit.list()).toEqual([]);
  });

  it('keeps squads with their members', async () => {
    const store = await (await place()).open();
    const a = await store.people.add(imre, coach);
    const b = await store.people.add(tamsin, coach);
    const squad = await store.squads.add({ name: 'Eight', members: [b.id, a.id, b.id] }, coach);
    expect(await store.squads.get(squad.id)).toEqual(squad);
    expect(squad.members).toEqual([a.id, b.id].sort());
    await store.squads.change(squad.id, { members: [b.id] }, coach, { reason: 'left the club' });
    expect((await store.people.list({ squad: squad.id })).map((person) => person.id)).toEqual([b.id]);
    expect((await store.squads.list()).map(({ members }) => members)).toEqual([[b.id]]);
    const states = await store.revisions.of<{ members: string[] }>('squad', squad.id);
    expect(states.map(({ state }) => state.members.length)).toEqual([2, 1]);
  });

  it('keeps every field of a session and a trial', async () => {
    const store = await (await place()).open();
    const { id: person } = await store.people.add(imre, coach);
    const full = {
      ...sessionOf(person),
      endedAt: '2026-03-02T08:05:00.001Z' as UtcInstant,
      rig: 'rack-2',
      bodyWeight: { value: 784.532, from: 'weighing', worn: 'belt and shoes' } as const,
      setup: { 'bar-height': 74.5, straps: true, grip: 'mixed' },
      notes: 'cold morning',
      resultsOnly: true,
    };
    const session = await store.sessions.add(full, coach);
    expect(await store.sessions.get(session.id)).toEqual({ ...full, id: session.id, revision: 1 });
    const trial = {
      session: session.id,
      position: 3,
      effort: 'submaximal',
      recordingLabel: 'Rep 3',
      reading: { rate: 1000, separator: ';' },
      forceSelection: { inputs: [{ from: { kind: 'channel', index: 2 }, part: 'left', sign: -1 }] },
      span: { start: 100.5, end: 6100.25 },
      cue: 1499.75,
    } as const;
    const { id } = await store.trials.add(trial, coach);
    expect(await store.trials.get(id)).toEqual({ ...trial, id, revision: 1 });
    const next = await store.trials.add({ session: session.id, effort: 'maximal' }, coach);
    expect(next.position).toBe(4);
    expect((await store.trials.ofSession(session.id)).map(({ position }) => position)).toEqual([3, 4]);
  });

  it('recognises a recording by its bytes, whatever its name', async () => {
    const here = await place();
    const store = await here.open();
    const first = await store.recordings.add(recordingOf('a'), coach);
    const second = await store.recordings.add(recordingOf('a', 'copy of pull.txt'), assistant);
    expect(first.duplicate).toBe(false);
    expect(second).toEqual({ duplicate: true, recording: first.recording });
    // SHA-256 of the single letter a: `printf a | sha256sum` (GNU coreutils 9.1).
    expect(first.recording.sha256).toBe('ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb');
    expect(await store.recordings.bytes(first.recording.sha256)).toEqual(fileOf('a'));
    expect(await store.recordings.list()).toEqual([first.recording]);
    expect(await store.recordings.verify()).toEqual([]);
  });

  it('refuses another document under the hash of a kept method', async () => {
    const store = await (await place()).open();
    const kept = await store.methods.add(methodHash, method, coach);
    expect(await store.methods.add(methodHash, method, assistant)).toEqual(kept);
    const other = { ...method, allometricExponent: 0.5 };
    await expect(store.methods.add(methodHash, other, coach)).rejects.toEqual(failing('method-changed'));
    await expect(store.methods.add('../x', method, coach)).rejects.toEqual(failing('bad-hash'));
    expect(await store.methods.list()).toEqual([kept]);
  });

  it('appends results; the newest of a method is current, the older ones stay', async () => {
    const store = await (await place()).open();
    const { trial } = await oneTrial(store);
    const add = (force: number, hash: string) =>
      store.results.add({ trial: trial.id, document: resultOf(force, 'counts', hash), versions }, coach);
    await expect(add(1, otherMethodHash)).rejects.toEqual(failing('refers-to-nothing'));
    await store.methods.add(otherMethodHash, { ...method, version: 2 }, coach);
    const first = await add(2500.125, methodHash);
    const second = await add(2501, otherMethodHash);
    const third = await add(2502, methodHash);
    expect(await store.results.get(first.id)).toEqual(first);
    expect(first.document.metrics.peak_force).toEqual({ value: 2500.125, unit: 'N', evidence: {} });
    expect(first.application).toBe('sthene 0.1.0-test');
    expect(await store.results.current(trial.id)).toEqual(third);
    expect(await store.results.current(trial.id, otherMethodHash)).toEqual(second);
    expect((await store.results.ofTrial(trial.id)).map(({ id }) => id)).toEqual([first.id, second.id, third.id]);
  });

  it('refuses a result with a number that is not finite', async () => {
    const store = await (await place()).open();
    const { trial } = await oneTrial(store);
    const document = resultOf(Number.NaN);
    await expect(store.results.add({ trial: trial.id, document, versions }, coach)).rejects.toEqual(
      failing('bad-value'),
    );
    expect(await store.results.ofTrial(trial.id)).toEqual([]);
  });

  it('offers templates for a header, the last used first', async () => {
    const here = await place();
    const store = await here.open();
    const add = (name: string) =>
      store.templates.add({ name, headerSignature: 'time;force', mapping: { name } }, coach);
    const [b, a, c] = [await add('b'), await add('a'), await add('c')];
    await store.templates.use(c.id, coach);
    await store.templates.use(b.id, coach);
    expect((await store.templates.forHeader('time;force')).map(({ name }) => name)).toEqual(['b', 'c', 'a']);
    expect((await store.templates.get(a.id))?.mapping).toEqual({ name: 'a' });
    expect(await store.templates.forHeader('other')).toEqual([]);
  });

  it('keeps settings by key', async () => {
    const store = await (await place()).open();
    expect(await store.settings.get('units.force')).toBeUndefined();
    await store.settings.set('units.force', { unit: 'N' }, coach);
    await store.settings.set('units.force', { unit: 'kg' }, assistant, { expected: 1, reason: 'asked by the coaches' });
    expect(await store.settings.get('units.force')).toEqual({ key: 'units.force', revision: 2, value: { unit: 'kg' } });
    await expect(store.settings.set('Not A Key', 1, coach)).rejects.toEqual(failing('bad-value'));
    expect((await store.settings.list()).map(({ key }) => key)).toEqual(['units.force']);
  });

  it('shows all three states of every editable field with author, time and reason', async () => {
    const store = await (await place()).open();
    const { person, session, trial, recording } = await oneTrial(store);
    const bytes = await store.recordings.bytes(recording.sha256);
    const other = await store.people.add(tamsin, coach);
    const squad = await store.squads.add({ name: 'Eight' }, coach);
    const template = await store.templates.add({ name: 't', headerSignature: 'h', mapping: 1 }, coach);
    const edits: [
      kind: 'person' | 'squad' | 'session' | 'trial' | 'template',
      field: string,
      values: [unknown, unknown],
    ][] = [
      ['person', 'code', ['FW-11', 'FW-12']],
      ['person', 'givenName', ['Imi', 'Imre J.']],
      ['person', 'familyName', ['Oaks', 'Oakes-Fell']],
      ['person', 'birthDate', ['2003-01-01', '2003-01-02']],
      ['person', 'sex', ['other', 'female']],
      ['person', 'notes', ['one', 'two']],
      ['person', 'active', [false, true]],
      ['squad', 'name', ['Four', 'Quad']],
      ['squad', 'notes', ['one', 'two']],
      ['squad', 'active', [false, true]],
      ['squad', 'members', [[person.id], []]],
      ['session', 'person', [other.id, person.id]],
      [
        'session',
        'protocol',
        [
          { id: 'imtp', version: 2 },
          { id: 'isometric-squat', version: 1 },
        ],
      ],
      ['session', 'startedAt', ['2026-03-02T07:31:00.000Z', '2026-03-02T07:32:00.000Z']],
      ['session', 'endedAt', ['2026-03-02T07:51:00.000Z', '2026-03-02T07:52:00.000Z']],
      ['session', 'rig', ['rack-1', 'rack-2']],
      [
        'session',
        'bodyWeight',
        [
          { value: 800, from: 'given' },
          { value: 801, from: 'weighing', worn: 'belt' },
        ],
      ],
      ['session', 'gravity', [9.81, 9.80665]],
      ['session', 'setup', [{ straps: true }, { straps: false }]],
      ['session', 'notes', ['one', 'two']],
      ['session', 'resultsOnly', [true, false]],
      ['trial', 'position', [7, 8]],
      ['trial', 'effort', ['submaximal', 'familiarisation']],
      ['trial', 'recordingLabel', ['Rep 1', 'Rep 2']],
      ['trial', 'reading', [{ rate: 1000 }, { rate: 1200 }]],
      ['trial', 'forceSelection', [{ inputs: [] }, undefined]],
      [
        'trial',
        'span',
        [
          { start: 0, end: 1 },
          { start: 0, end: 2 },
        ],
      ],
      ['trial', 'cue', [1.5, 2.5]],
      ['template', 'name', ['u', 'v']],
      ['template', 'headerSignature', ['i', 'j']],
      ['template', 'mapping', [2, 3]],
    ];
    const ids = { person: person.id, squad: squad.id, session: session.id, trial: trial.id, template: template.id };
    const repositories = {
      person: store.people,
      squad: store.squads,
      session: store.sessions,
      trial: store.trials,
      template: store.templates,
    };
    for (const [kind, field, [first, second]] of edits) {
      const change = repositories[kind].change as (...edit: unknown[]) => Promise<unknown>;
      const before = (await store.revisions.of(kind, ids[kind])).at(-1)?.state[field];
      await change(ids[kind], { [field]: first }, coach, { reason: `${field} first` });
      await change(ids[kind], { [field]: second }, assistant, { reason: `${field} second` });
      const states = (await store.revisions.of(kind, ids[kind])).slice(-3);
      expect(states.map(({ state }) => state[field])).toEqual([before, first, second]);
      expect(states.slice(1).map(({ by, reason }) => [by, reason])).toEqual([
        [coach.by, `${field} first`],
        [assistant.by, `${field} second`],
      ]);
      expect(new Set(states.map(({ at }) => at)).size).toBe(3);
      const read = (await repositories[kind].get(ids[kind])) as unknown as Record<string, unknown>;
      expect(read[field]).toEqual(second);
    }
    expect(await store.recordings.bytes(recording.sha256)).toEqual(bytes);
    expect(await store.recordings.verify()).toEqual([]);
  });

  it('leaves no revision and no entry when nothing changes', async () => {
    const store = await (await place()).open();
    const { id } = await store.people.add(imre, coach);
    const same = await store.people.change(id, { givenName: 'Imre' }, coach);
    expect(same.revision).toBe(1);
    expect(await store.revisions.of('person', id)).toHaveLength(1);
    expect(await store.audit.list()).toHaveLength(1);
  });
});
