import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  defaultMethod,
  have,
  lack,
  methodReference,
  type TrialResult,
  type UtcInstant,
  type Verdict,
} from '@sthene/core';
import { expect, it } from 'vitest';
import { stationActor as actor, type OpenLab } from '../src/labs/open-lab.ts';
import { sessionValues } from '../src/work/athlete/session-values.ts';
import { valuesOfEveryone } from '../src/work/athlete/values-of-everyone.ts';
import { withLab } from './filled-lab.ts';

const asked = { metric: 'peak_force', protocol: 'imtp' };
const reference = methodReference(defaultMethod);

/** Only what a history reads of a result. */
const resultOf = (peak: number | undefined, verdict: Verdict): TrialResult => ({
  ...{ test: 'imtp', testVersion: 1, method: reference, sampleRate: 1000, span: { start: 0, end: 5000 } },
  onset: lack('no-effort'),
  bodyWeight: have({ value: 700, unit: 'N', from: 'weighing' }),
  gravity: 9.80665,
  metrics: { peak_force: peak === undefined ? { reason: 'no-effort' } : { value: peak, unit: 'N', evidence: {} } },
  ...{ checks: {}, spread: {}, onsets: {}, verdict },
});

/** Numbers that repeat; Marsaglia's xorshift (2003). */
function random(seed: number) {
  let state = seed;
  const next = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  return { next, of: <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T };
}

async function randomActs({ store }: OpenLab, seed: number) {
  const { next, of } = random(seed);
  const people: string[] = [];
  const sessions: string[] = [];
  const trials: string[] = [];
  let place = 1000;
  const day = (): UtcInstant =>
    `2026-0${1 + Math.floor(next() * 9)}-1${Math.floor(next() * 9)}T08:00:00.000Z` as UtcInstant;
  const versions = { metrics: { peak_force: 1 }, checks: {} };
  const acts = {
    async person() {
      const code = `F${people.length}`;
      people.push((await store.people.add({ code, givenName: 'Reed', familyName: code }, actor)).id);
    },
    async session() {
      const protocol = { id: of(['imtp', 'imtp', 'imtp', 'isometric-squat']), version: 1 };
      const draft = { person: of(people), protocol, startedAt: day(), gravity: 9.80665 };
      sessions.push((await store.sessions.add(draft, actor)).id);
    },
    async trial() {
      const effort = of(['maximal', 'maximal', 'submaximal'] as const);
      trials.push((await store.trials.add({ session: of(sessions), effort }, actor)).id);
    },
    async result() {
      const document = resultOf(next() < 0.1 ? undefined : 1000 + 1000 * next(), of(['counts', 'counts', 'repeat']));
      await store.results.add({ trial: of(trials), document, versions }, actor);
    },
    async decision() {
      const payload = { category: 'slack' };
      await store.decisions.add({ trial: of(trials), kind: 'exclude', payload, reason: 'bar not taken up' }, actor);
    },
    undo: () => store.decisions.undo(of(trials), actor, 'looked again'),
    moveTrial: () => store.trials.change(of(trials), { session: of(sessions), position: ++place }, actor),
    moveSession: () => store.sessions.change(of(sessions), { startedAt: day() }, actor),
    otherPerson: () => store.sessions.change(of(sessions), { person: of(people) }, actor),
    setting: () => store.settings.set('lab.name', `Boathouse ${next()}`, actor),
  };
  for (const first of ['person', 'person', 'session', 'session', 'trial', 'trial'] as const) await acts[first]();
  const often = ['session', 'trial', 'trial', 'trial', 'result', 'result', 'result', 'result'] as const;
  const names = [...(Object.keys(acts) as (keyof typeof acts)[]), ...often];
  return () => acts[of(names)]();
}

it('are after any writes what they are when everything is looked at', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-values-'));
  try {
    await withLab(folder, async (lab) => {
      await lab.store.methods.add(reference.sha256, defaultMethod, actor);
      const act = await randomActs(lab, 20261128);
      let [valued, looks] = [0, 0];
      for (let n = 0; n < 700; n++) {
        await act();
        // Several writes may come between two looks.
        if (n % 3 === 1) continue;
        const known = await valuesOfEveryone(lab, asked);
        const afresh = sessionValues(await lab.store.results.history({ ...asked, of: 'everyone' }));
        expect(known, `after ${n + 1} acts`).toEqual(afresh);
        valued += known.filter(({ value }) => value !== undefined).length;
        looks++;
      }
      expect(valued / looks).toBeGreaterThan(5);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
