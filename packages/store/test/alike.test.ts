import { expect, it } from 'vitest';
import { coach, onBothEngines } from './engines.ts';
import { imre, oneTrial, recordingOf, resultOf, sessionOf, versions } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });

/** Text that breaks careless programs. Each must come back unchanged. */
const hostile = [
  "Robert'); drop table people; --",
  '" or 1=1 --',
  '<script>alert(1)</script>',
  '=1+1',
  '@SUM(A1)',
  '../../etc/passwd',
  '%_\\',
  '$1 ? :name @p1',
  '{{7*7}}\u0024{7*7}',
  '\u202Egnp.exe',
  'a\u0301 \u00e1',
  '\ud83d\udea3\u200d\u2640\ufe0f',
  'line\r\nline\ttab\u0007bell\u001b[31m',
  ' leading and trailing ',
  '\uFEFFmark',
  '__proto__',
  'x'.repeat(200),
];

onBothEngines('both engines alike', (place) => {
  it('keeps hostile text unchanged in every text field', async () => {
    const store = await (await place()).open();
    for (const text of hostile) {
      const person = await store.people.add({ code: text, givenName: text, familyName: text, notes: text }, coach);
      expect(await store.people.get(person.id)).toEqual(person);
      expect(person.notes).toBe(text);
      const session = await store.sessions.add(
        { ...sessionOf(person.id), notes: text, rig: text, setup: Object.fromEntries([[text, text]]) },
        coach,
      );
      expect(await store.sessions.get(session.id)).toEqual(session);
      expect(Object.entries(session.setup)).toEqual([[text, text]]);
      const trial = await store.trials.add({ session: session.id, effort: 'maximal', recordingLabel: text }, coach);
      expect((await store.trials.get(trial.id))?.recordingLabel).toBe(text);
      const decision = { trial: trial.id, kind: 'note', payload: { text }, reason: text } as const;
      await store.decisions.add(decision, coach);
      expect((await store.decisions.ofTrial(trial.id))[0]).toMatchObject(decision);
      expect((await store.people.list({ text })).map(({ id }) => id)).toContain(person.id);
      const { recording } = await store.recordings.add(recordingOf(text, text), coach);
      expect((await store.recordings.get(recording.sha256))?.fileName).toBe(text);
    }
    expect(await store.people.list()).toHaveLength(hostile.length);
    expect(await store.audit.verify()).toMatchObject({ intact: true });
    expect(await store.audit.verifyRecords()).toEqual([]);
  });

  it('keeps long text and refuses a name no index could hold', async () => {
    const store = await (await place()).open();
    const notes = 'ø\u{1F6A3} '.repeat(50_000);
    const { id } = await store.people.add({ ...imre, notes }, coach);
    expect((await store.people.get(id))?.notes).toBe(notes);
    const long = '\u{1F6A3}'.repeat(100);
    await store.people.add({ code: long, givenName: long, familyName: long }, coach);
    for (const field of ['code', 'givenName', 'familyName']) {
      const add = store.people.add({ ...imre, code: 'other', [field]: `${long}x` }, coach);
      await expect(add).rejects.toEqual(failing('bad-value'));
    }
    await expect(store.people.list({ text: `${long}x` })).rejects.toEqual(failing('bad-value'));
  });

  it.each([
    ['the NUL character', 'a\0b'],
    ['half a surrogate pair', 'a\ud800b'],
  ])('refuses %s, which one of the engines would change', async (_, text) => {
    const store = await (await place()).open();
    const add = store.people.add({ ...imre, notes: text }, coach);
    await expect(add).rejects.toEqual(failing('text-not-storable'));
    expect(await store.people.list()).toEqual([]);
  });

  it('takes search words literally and ignores case and accents', async () => {
    const store = await (await place()).open();
    const names = ['Ålund', 'alund', 'AL_ND', 'al%nd', 'Straße', 'Čapek'];
    for (const [n, familyName] of names.entries()) await store.people.add({ ...imre, code: `${n}`, familyName }, coach);
    const find = async (text: string) => (await store.people.list({ text })).map(({ familyName }) => familyName).sort();
    expect(await find('ALUND')).toEqual(['alund', 'Ålund']);
    expect(await find('l_n')).toEqual(['AL_ND']);
    expect(await find('l%n')).toEqual(['al%nd']);
    expect(await find('čaPE')).toEqual(['Čapek']);
    expect(await find('imre STRA')).toEqual(['Straße']);
    expect(await find('nobody')).toEqual([]);
  });

  it('orders by the same rule: people folded, squads by code point', async () => {
    const store = await (await place()).open();
    for (const familyName of ['b', 'Z', 'a', 'Ä', '_', 'É', 'e', 'é1', '10', '9']) {
      await store.people.add({ ...imre, familyName, code: familyName }, coach);
    }
    // By hand from the rule (accents off, lower case, then bytes; a tie goes by code).
    expect((await store.people.list()).map((person) => person.familyName)).toEqual([
      '10',
      '9',
      '_',
      'a',
      'Ä',
      'b',
      'e',
      'É',
      'é1',
      'Z',
    ]);
    for (const name of ['b', 'B', 'a', 'ä', 'A', 'a b', 'a-b', 'aB']) await store.squads.add({ name }, coach);
    expect((await store.squads.list()).map(({ name }) => name)).toEqual(['A', 'B', 'a', 'a b', 'a-b', 'aB', 'b', 'ä']);
  });

  it('tells upper from lower case in codes and names', async () => {
    const store = await (await place()).open();
    const upper = await store.people.add({ ...imre, code: 'A1' }, coach);
    const lower = await store.people.add({ ...imre, code: 'a1' }, coach);
    expect((await store.people.byCode('A1'))?.id).toBe(upper.id);
    expect((await store.people.byCode('a1'))?.id).toBe(lower.id);
    expect(await store.people.byCode('A1 ')).toBeUndefined();
  });

  it('keeps whole numbers up to 2^53 - 1 and refuses larger ones', async () => {
    const store = await (await place()).open();
    const big = { ...recordingOf('big'), sampleCount: Number.MAX_SAFE_INTEGER };
    const { recording } = await store.recordings.add(big, coach);
    expect((await store.recordings.get(recording.sha256))?.sampleCount).toBe(9_007_199_254_740_991);
    for (const sampleCount of [Number.MAX_SAFE_INTEGER + 1, -1, 0.5, Number.NaN]) {
      const add = store.recordings.add({ ...recordingOf('x'), sampleCount }, coach);
      await expect(add).rejects.toEqual(failing('bad-value'));
    }
  });

  it('keeps every bit of a double', async () => {
    const here = await place();
    const store = await here.open();
    const { trial } = await oneTrial(store);
    const values = [
      0.1,
      1 / 3,
      Math.PI,
      -2500.123456789012,
      Number.MIN_VALUE,
      Number.MAX_VALUE,
      2 ** 53 + 2,
      1e21,
      -1e-300,
      0,
      5,
    ];
    for (const value of values) {
      const result = await store.results.add({ trial: trial.id, document: resultOf(value), versions }, coach);
      expect((await store.results.get(result.id))?.document.metrics.peak_force).toMatchObject({ value });
      const [point] = await store.results.history({
        of: { person: (await store.people.list())[0]!.id },
        metric: 'peak_force',
      });
      expect(point?.metric).toEqual({ value, unit: 'N' });
    }
  });

  it('tells a missing value from zero and from empty text', async () => {
    const store = await (await place()).open();
    const { id } = await store.people.add(imre, coach);
    const bare = await store.sessions.add(sessionOf(id), coach);
    const empty = await store.sessions.add({ ...sessionOf(id), rig: '' }, coach);
    expect(await store.sessions.get(bare.id)).not.toHaveProperty('rig');
    expect((await store.sessions.get(empty.id))?.rig).toBe('');
    const trial = await store.trials.add({ session: bare.id, effort: 'maximal', cue: 0 }, coach);
    expect((await store.trials.get(trial.id))?.cue).toBe(0);
  });

  it.each([
    '2026-03-02T07:30:00Z',
    '2026-03-02T07:30:00.000+00:00',
    '2026-02-30T07:30:00.000Z',
    '2026-03-02T24:00:00.000Z',
    '2026-03-02 07:30:00.000Z',
    '',
  ])('refuses %j as an instant, so that text order is the order of time', async (startedAt) => {
    const store = await (await place()).open();
    const { id } = await store.people.add(imre, coach);
    await expect(store.sessions.add(sessionOf(id, startedAt), coach)).rejects.toEqual(failing('bad-value'));
  });

  it('names no stored value in an error', async () => {
    const store = await (await place()).open();
    const secret = 'TOKEN-7b1f';
    await store.people.add({ ...imre, code: secret, notes: secret }, coach);
    const attempts = [
      () => store.people.add({ ...imre, code: secret }, coach),
      () => store.people.add({ ...imre, code: 'x', birthDate: secret }, coach),
      () => store.people.add({ ...imre, code: 'y', notes: `${secret}\0` }, coach),
      () => store.sessions.add(sessionOf(secret), coach),
      () => store.people.change(secret, { notes: secret }, coach),
    ];
    for (const attempt of attempts) {
      const error = await attempt().then(
        () => expect.fail('should be refused'),
        (reason: unknown) => reason as Error,
      );
      expect(error.name).toBe('StoreError');
      const shown = [error.message, error.stack, JSON.stringify(error), Object.values(error), error.cause];
      expect(JSON.stringify(shown)).not.toContain(secret);
    }
  });
});
