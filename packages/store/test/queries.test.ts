import type { UtcInstant, Verdict } from '@sthene/core';
import { expect, it } from 'vitest';
import type { Store } from '../src/index.ts';
import { assistant, coach, onBothEngines } from './engines.ts';
import {
  imre,
  method,
  methodHash,
  oneTrial,
  otherMethodHash,
  resultOf,
  sessionOf,
  tamsin,
  versions,
} from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });

/** Adds trials with results; a force of undefined leaves the trial without a result. */
async function addTrials(store: Store, session: string, forces: [number | undefined, Verdict?, string?][]) {
  const ids: string[] = [];
  for (const [force, verdict, effort] of forces) {
    const trial = await store.trials.add({ session, effort: (effort ?? 'maximal') as 'maximal' }, coach);
    ids.push(trial.id);
    if (force === undefined) continue;
    await store.results.add({ trial: trial.id, document: resultOf(force, verdict), versions }, coach);
  }
  return ids;
}

onBothEngines('questions of screens', (place) => {
  it('keeps decisions, undo and redo as a growing list', async () => {
    const here = await place();
    const store = await here.open();
    const { trial } = await oneTrial(store);
    const hand = { kind: 'onset-by-hand', payload: { index: 1234.5 }, reason: 'dip before the pull' } as const;
    const first = await store.decisions.add({ trial: trial.id, ...hand }, coach);
    const exclude = { kind: 'exclude', payload: { category: 'slack' }, reason: 'bar not taken up' } as const;
    const second = await store.decisions.add({ trial: trial.id, ...exclude }, assistant);
    const undone = await store.decisions.undo(trial.id, coach, 'looked again');
    expect(undone).toMatchObject({ kind: 'undo', reverts: second.id, by: coach.by, reason: 'looked again' });
    expect((await store.trials.view(trial.id))?.effective).toEqual({
      onsetByHand: first,
      notes: [],
      undoable: first,
      redoable: undone,
    });
    const redone = await store.decisions.redo(trial.id, coach);
    expect(redone).toMatchObject({ kind: 'redo', reverts: undone?.id });
    expect((await store.trials.view(trial.id))?.standing).toBe('excluded');
    expect(await store.decisions.redo(trial.id, coach)).toBeUndefined();
    expect(await store.decisions.ofTrial(trial.id)).toEqual([first, second, undone, redone]);
    const entries = await store.audit.list({ subject: { kind: 'trial', id: trial.id } });
    expect(entries.map(({ action }) => action).reverse()).toEqual([
      'trial.add',
      'decision.onset-by-hand',
      'decision.exclude',
      'decision.undo',
      'decision.redo',
    ]);
    await store.close();
    const again = await here.open('b');
    expect(await again.decisions.ofTrial(trial.id)).toEqual([first, second, undone, redone]);
    expect(await again.decisions.undo('nothing', coach)).toBeUndefined();
  });

  it('refuses a decision without a reason, on nothing, or of an unknown kind', async () => {
    const store = await (await place()).open();
    const { trial } = await oneTrial(store);
    const restore = { kind: 'restore', payload: {} } as const;
    const add = (decision: object) => store.decisions.add(decision as never, coach);
    await expect(add({ ...restore, trial: trial.id, reason: ' ' })).rejects.toEqual(failing('bad-value'));
    await expect(add({ ...restore, trial: 'nothing', reason: 'r' })).rejects.toEqual(failing('not-found'));
    await expect(add({ ...restore, kind: 'undo', trial: trial.id, reason: 'r' })).rejects.toEqual(failing('bad-value'));
    await expect(add({ ...restore, kind: 'erase', trial: trial.id, reason: 'r' })).rejects.toEqual(
      failing('bad-value'),
    );
    expect(await store.decisions.ofTrial(trial.id)).toEqual([]);
  });

  it('lists sessions with person, standings and peak force', async () => {
    const store = await (await place()).open();
    await store.methods.add(methodHash, method, coach);
    const person = await store.people.add(imre, coach);
    const session = await store.sessions.add(sessionOf(person.id), coach);
    const ids = await addTrials(store, session.id, [
      [1200, 'counts', 'submaximal'],
      [2500, 'counts'],
      [2700, 'repeat'],
      [2600, 'look-again'],
      [2900, 'counts'],
      [undefined],
    ]);
    const decide = (n: number, content: object) =>
      store.decisions.add({ trial: ids[n]!, reason: 'seen on video', ...content } as never, coach);
    await decide(2, { kind: 'overrule-counts', payload: {} });
    await decide(4, { kind: 'exclude', payload: { category: 'pain' } });
    const { items, total, next } = await store.sessions.list();
    expect({ total, next }).toEqual({ total: 1, next: undefined });
    expect(items).toEqual([
      {
        session,
        person: { id: person.id, code: 'FW-01', givenName: 'Imre', familyName: 'Oakes' },
        trials: {
          total: 6,
          maximal: 5,
          byStanding: { counts: 2, 'look-again': 1, repeat: 0, excluded: 1, 'not-analysed': 1 },
        },
        // (2500 + 2700) / 2, the overruled one included, the excluded and the submaximal ones not.
        summary: { best: 2700, mean: 2600, count: 2, unit: 'N' },
      },
    ]);
  });

  it('judges by the newest result of the method asked for', async () => {
    const store = await (await place()).open();
    await store.methods.add(methodHash, method, coach);
    await store.methods.add(otherMethodHash, { ...method, version: 2 }, coach);
    const person = await store.people.add(imre, coach);
    const session = await store.sessions.add(sessionOf(person.id), coach);
    const [trial] = await addTrials(store, session.id, [[2500, 'repeat']]);
    const add = (force: number, verdict: Verdict, hash: string) =>
      store.results.add({ trial: trial!, document: resultOf(force, verdict, hash), versions }, coach);
    await add(2510, 'counts', methodHash);
    await add(2600, 'look-again', otherMethodHash);
    const of = async (method?: string) => {
      const [item] = (await store.sessions.list(method === undefined ? {} : { method })).items;
      const view = await store.trials.view(trial!, method);
      return [item?.summary?.best, view?.standing, view?.siblings[0]?.standing.standing, view?.result?.method];
    };
    expect(await of(methodHash)).toEqual([2510, 'counts', 'counts', methodHash]);
    expect(await of(otherMethodHash)).toEqual([undefined, 'look-again', 'look-again', otherMethodHash]);
    expect(await of()).toEqual([undefined, 'look-again', 'look-again', otherMethodHash]);
    expect(await of('c3'.repeat(32))).toEqual([undefined, 'not-analysed', 'not-analysed', undefined]);
  });

  it('pages through sessions newest first, without loss at equal starts, and filters', async () => {
    const store = await (await place()).open();
    const a = await store.people.add(imre, coach);
    const b = await store.people.add(tamsin, coach);
    const squad = await store.squads.add({ name: 'Eight', members: [b.id] }, coach);
    for (const day of ['01', '02', '02', '02', '03']) {
      await store.sessions.add(sessionOf(a.id, `2026-03-${day}T07:30:00.000Z`), coach);
    }
    const squat = { ...sessionOf(b.id, '2026-02-28T23:59:59.999Z'), protocol: { id: 'isometric-squat', version: 1 } };
    const { id } = await store.sessions.add(squat, coach);
    const all = (await store.sessions.list()).items.map(({ session }) => session);
    expect(all.map(({ startedAt }) => startedAt.slice(5, 10))).toEqual([
      '03-03',
      '03-02',
      '03-02',
      '03-02',
      '03-01',
      '02-28',
    ]);
    const paged: string[] = [];
    let after: string | undefined;
    do {
      const page = await store.sessions.list({ limit: 2, ...(after === undefined ? {} : { after }) });
      expect(page.total).toBe(6);
      paged.push(...page.items.map(({ session }) => session.id));
      after = page.next;
    } while (after !== undefined);
    expect(paged).toEqual(all.map(({ id }) => id));
    const count = async (filter: object) => {
      const { items, total } = await store.sessions.list(filter);
      expect(items).toHaveLength(total);
      return total;
    };
    expect(await count({ person: a.id })).toBe(5);
    expect(await count({ squad: squad.id })).toBe(1);
    expect(await count({ protocol: 'isometric-squat' })).toBe(1);
    expect(await count({ protocol: 'isometric' })).toBe(0);
    expect(await count({ text: 'alund' })).toBe(1);
    expect(await count({ text: 'IMTP oakes' })).toBe(5);
    expect(await count({ text: '%' })).toBe(0);
    expect(await count({ from: '2026-03-01T07:30:00.000Z', until: '2026-03-03T07:30:00.000Z' })).toBe(4);
    expect((await store.sessions.list({ until: '2026-03-01T00:00:00.000Z' })).items[0]?.session.id).toBe(id);
    for (const limit of [0, 501, 1.5]) {
      await expect(store.sessions.list({ limit })).rejects.toEqual(failing('bad-value'));
    }
    await expect(store.sessions.list({ after: 'rubbish' })).rejects.toEqual(failing('bad-value'));
  });

  it('knows what was set up the last time, wherever anything was', async () => {
    const store = await (await place()).open();
    const { person } = await oneTrial(store);
    const of = { person: person.id, protocol: 'imtp' };
    const add = (startedAt: string, more: object) =>
      store.sessions.add({ ...sessionOf(person.id), startedAt: startedAt as UtcInstant, ...more }, coach);
    const old = await add('2031-01-01T08:00:00.000Z', { setup: { bar_height: 70 } });
    const newest = await add('2031-01-02T08:00:00.000Z', { setup: { bar_height: 71 } });
    await add('2031-01-03T08:00:00.000Z', {});
    await add('2031-01-04T08:00:00.000Z', { setup: { bar_height: 72 }, resultsOnly: true });
    await add('2031-01-05T08:00:00.000Z', { setup: { bar_height: 73 }, protocol: { id: 'other', version: 1 } });
    expect(await store.sessions.lastSetup(of)).toEqual({ at: newest.startedAt, values: newest.setup });
    expect(await store.sessions.lastSetup({ ...of, except: newest.id })).toEqual({
      at: old.startedAt,
      values: old.setup,
    });
    expect(await store.sessions.lastSetup({ ...of, protocol: 'nothing' })).toBeUndefined();
  });

  it('shows a trial with all around it', async () => {
    const store = await (await place()).open();
    const { person, session, trial, recording } = await oneTrial(store);
    await store.trials.add({ session: session.id, effort: 'submaximal' }, coach);
    const result = await store.results.add({ trial: trial.id, document: resultOf(2500), versions }, coach);
    const view = await store.trials.view(trial.id);
    expect(view).toMatchObject({ trial, session, person, recording, result, standing: 'counts', decisions: [] });
    expect(view?.siblings.map(({ trial, standing }) => [trial.position, standing.standing, standing.metric])).toEqual([
      [1, 'counts', { value: 2500, unit: 'N' }],
      [2, 'not-analysed', undefined],
    ]);
    expect(await store.trials.standingIn(session)).toEqual(view?.siblings);
    expect(await store.trials.standingIn({ ...session, id: 'nothing' })).toEqual([]);
    expect(await store.trials.view('nothing')).toBeUndefined();
  });

  it('follows one metric of a person or a squad over time', async () => {
    const store = await (await place()).open();
    await store.methods.add(methodHash, method, coach);
    const a = await store.people.add(imre, coach);
    const b = await store.people.add(tamsin, coach);
    const squad = await store.squads.add({ name: 'Pair', members: [a.id, b.id] }, coach);
    const late = await store.sessions.add(sessionOf(a.id, '2026-03-09T07:00:00.000Z'), coach);
    const early = await store.sessions.add(sessionOf(a.id, '2026-03-02T07:00:00.000Z'), coach);
    const others = await store.sessions.add(sessionOf(b.id, '2026-03-05T07:00:00.000Z'), coach);
    await addTrials(store, late.id, [[2600], [undefined], [2650, 'repeat']]);
    await addTrials(store, early.id, [[2500]]);
    const [lacking] = await addTrials(store, others.id, [[undefined]]);
    await store.results.add({ trial: lacking!, document: resultOf(undefined, 'repeat'), versions }, coach);
    const points = await store.results.history({ of: { person: a.id }, metric: 'peak_force' });
    expect(points.map(({ at, position, metric, standing }) => [at.slice(8, 10), position, metric, standing])).toEqual([
      ['02', 1, { value: 2500, unit: 'N' }, 'counts'],
      ['09', 1, { value: 2600, unit: 'N' }, 'counts'],
      ['09', 3, { value: 2650, unit: 'N' }, 'repeat'],
    ]);
    const team = await store.results.history({ of: { squad: squad.id }, metric: 'peak_force' });
    expect(team.map(({ person }) => person)).toEqual([a.id, b.id, a.id, a.id]);
    expect(team[1]?.metric).toEqual({ reason: 'no-effort' });
    const none = { of: { person: a.id }, metric: 'peak_force', protocol: 'isometric-squat' };
    expect(await store.results.history(none)).toEqual([]);
    const unknown = await store.results.history({ of: { person: a.id }, metric: 'no_such' });
    expect(unknown.map(({ metric }) => metric)).toEqual([undefined, undefined, undefined]);
  });

  it('knows which trials and sessions were written about since an entry, and where anything may be another', async () => {
    const here = await place();
    const store = await here.open();
    const { person, session, trial } = await oneTrial(store);
    const end = async () => (await store.audit.last())?.sequence ?? 0;
    const start = await end();
    expect(await store.results.changedSince(start, 10)).toEqual({ sessions: [], trials: [] });
    await store.people.change(person.id, { givenName: 'Imke' }, coach);
    await store.settings.set('lab.name', 'Fernwater', coach);
    expect(await store.results.changedSince(start, 10)).toEqual({ sessions: [], trials: [] });
    await store.results.add({ trial: trial.id, document: resultOf(2500), versions }, coach);
    await store.decisions.add(
      { trial: trial.id, kind: 'exclude', payload: { category: 'slack' }, reason: 'bar not taken up' },
      coach,
    );
    expect(await store.results.changedSince(start, 10)).toEqual({ sessions: [session.id], trials: [trial.id] });
    const other = await store.sessions.add(sessionOf(person.id, '2026-03-03T07:30:00.000Z'), coach);
    await store.trials.change(trial.id, { session: other.id }, coach);
    const moved = await store.results.changedSince(start, 10);
    expect([moved?.sessions, moved?.trials]).toEqual([[other.id], [trial.id]]);
    expect(await store.results.changedSince(start, 1)).toBeUndefined();
    const run = await store.recomputations.add({ method: methodHash }, coach);
    const begun = await end();
    await store.recomputations.change(run.id, { state: 'finished' }, coach);
    expect(await store.results.changedSince(begun, 10)).toEqual({ sessions: [], trials: [] });
    await store.recomputations.change(run.id, { state: 'adopted' }, coach);
    expect(await store.results.changedSince(begun, 10)).toBeUndefined();
  });
});
