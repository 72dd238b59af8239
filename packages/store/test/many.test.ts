import { expect, it } from 'vitest';
import { inPieces } from '../src/queries/in-pieces.ts';
import { coach, onBothEngines } from './engines.ts';
import { imre, oneTrial, resultOf, sessionOf, tamsin, versions } from './fernwater.ts';

it('asks for a long list in pieces and leaves none out', async () => {
  const ids = Array.from({ length: 2_500 }, (_, i) => `id-${i}`);
  const pieces: number[] = [];
  const rows = await inPieces(ids, async (piece) => {
    pieces.push(piece.length);
    return piece;
  });
  expect(rows).toEqual(ids);
  expect(pieces).toEqual([1_000, 1_000, 500]);
  expect(await inPieces([], () => Promise.reject(new Error('asked for nothing')))).toEqual([]);
});

onBothEngines('questions for many at once', (place) => {
  it('answers as the questions for each do', async () => {
    const store = await (await place()).open();
    const { session, trial } = await oneTrial(store);
    const people = [await store.people.add({ ...imre, code: 'FW-91' }, coach), await store.people.add(tamsin, coach)];
    const [first, second] = people.map(({ id }) => id) as [string, string];
    expect(new Set(await store.people.getMany([first, second, 'nobody']))).toEqual(new Set(people));

    const other = await store.sessions.add(sessionOf(second), coach);
    const empty = await store.sessions.add(sessionOf(second), coach);
    for (const peak of [2000, 2100]) {
      const { id } = await store.trials.add({ session: other.id, effort: 'maximal' }, coach);
      await store.results.add({ trial: id, document: resultOf(peak), versions }, coach);
    }
    const many = await store.trials.standingInMany([session.id, other.id, empty.id]);
    expect([...many.keys()].sort()).toEqual([session.id, other.id].sort());
    const bare = (await store.trials.standingIn(other)).map(({ trial: one, standing: { metric: _, ...standing } }) => ({
      trial: one,
      standing,
    }));
    expect(many.get(other.id)).toEqual(bare);
    expect(many.get(session.id)?.map((one) => one.trial.id)).toEqual([trial.id]);

    const gate = { kind: 'screening', granted: true, limb: 'both', from: '2031-01-01', note: '' } as const;
    for (const from of ['2031-01-02', '2031-01-01']) await store.gates.add({ ...gate, person: first, from }, coach);
    const gates = await store.gates.ofPeople([first, second]);
    expect(gates.get(first)).toEqual(await store.gates.ofPerson(first));
    expect(gates.get(first)?.map(({ from }) => from)).toEqual(['2031-01-01', '2031-01-02']);
    expect(gates.has(second)).toBe(false);
    expect(await store.gates.ofEverybody()).toEqual(gates);
  });
});
