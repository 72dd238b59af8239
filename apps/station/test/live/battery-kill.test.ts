import { afterAll, expect, it } from 'vitest';
import type { OriginFacts } from '../../src/live/rig/keep-trial.ts';
import { killableStation } from './killable.ts';
import { analysedAgain, withStore } from './stored.ts';

interface Said {
  readonly trial?: string;
  readonly code?: string;
  readonly of?: string;
  readonly phase?: string;
  readonly turn?: string;
  readonly test?: string;
  readonly done?: boolean;
}

const station = killableStation<Said>('Wren,Alder,FW01\nHeron,Birch,FW02\n', 'battery');
afterAll(() => station.end());

it('goes on with the next test of whoever was in the middle of a battery, with the weight that was taken', {
  timeout: 320_000,
}, async () => {
  // In the turn of the first athlete's second test, after the jump was kept.
  const before = await station.run((said) => said.at(-1)?.test === 'imtp' && said.at(-1)?.turn === 'FW01');
  expect(before.some(({ code, of }) => code === 'FW01' && of?.includes('countermovement-jump'))).toBe(true);
  const after = await station.run((said) => said.at(-1)?.done === true);
  const efforts = after.flatMap(({ code, of }) =>
    code === undefined || of === undefined ? [] : [`${code} ${of.includes('imtp') ? 'imtp' : 'countermovement-jump'}`],
  );
  // A set may ask for one more; nothing is done twice and nobody is passed over.
  expect([...new Set(efforts)]).toEqual(['FW01 imtp', 'FW02 countermovement-jump', 'FW02 imtp']);
  // Plates that were not touched have kept their zero, so that nobody is weighed again.
  const weighed = after.filter(({ phase }) => phase === 'stand-still').map(({ turn, test }) => `${turn} ${test}`);
  expect([...new Set(weighed)]).toEqual(['FW02 countermovement-jump']);
  await withStore(station.data, async (store) => {
    for (const { stored, again } of await analysedAgain(store)) expect(again).toEqual(stored);
    const { items } = await store.sessions.list({ limit: 50 });
    expect(items).toHaveLength(4);
    for (const { session, person } of items.filter((one) => one.session.protocol.id === 'imtp')) {
      const jumps = items.find((one) => one.person.code === person.code && one.session.id !== session.id);
      expect(session.bodyWeight).toEqual(jumps?.session.bodyWeight);
      for (const { id } of await store.trials.ofSession(session.id)) {
        const facts = (await store.origins.ofTrial(id))?.facts as unknown as OriginFacts;
        const [first] = await store.trials.ofSession(jumps?.session.id ?? '');
        expect(facts.weighedBefore).toEqual({ test: 'countermovement-jump', trial: first?.id });
      }
    }
    expect((await store.audit.verify()).intact).toBe(true);
  });
});
