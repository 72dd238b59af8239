import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ApiProblem, methodRoutes, type Recomputation, routes } from '@sthene/contract';
import { defaultMethod, type Method, methodReference, methodRegistry } from '@sthene/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { stationActor } from '../src/labs/open-lab.ts';
import { readingOneAfterTheOther } from '../src/work/read-recording.ts';
import { judgeTrial } from '../src/work/recompute/judge.ts';
import { fillSmallLab, withLab } from './filled-lab.ts';
import { by, inLab } from './live/set-up.ts';
import { simulatedFile } from './simulated-file.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const r = methodRoutes;
const fixed = methodRegistry.get('fixed-75')?.method as Method;
const fixedHash = methodReference(fixed).sha256;
const reason = 'Agreed at the meeting.';

describe('judging the archive again', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-recompute-'));
  let station: StationUnderTest;
  let trials: string[] = [];
  let run: Recomputation;
  beforeAll(async () => {
    await withLab(folder, async (lab) => {
      trials = await fillSmallLab(lab, 4);
      // The file of the last trial is gone.
      const last = await lab.store.trials.get(trials.at(-1) as string);
      const recordings = join(lab.folder, 'recordings');
      const file = (readdirSync(recordings, { recursive: true }) as string[]).find(
        (name) => name.includes(last?.recording?.slice(4) ?? '-') && statSync(join(recordings, name)).isFile(),
      );
      rmSync(join(recordings, file as string));
    });
    station = await stationUnderTest(folder);
    for (const page of [
      'athlete?person=FW01&metric=force_at_100&as=pdf',
      'athlete?person=FW01&metric=force_at_100&as=pdf',
      'athlete?person=FW01&as=html',
      'squad?as=xlsx',
    ])
      expect((await fetch(`${station.address}api/labs/lab/reports/${page}`)).status).toBe(200);
  });
  afterAll(() => station?.end());

  const at = (id = run.id) => ({ params: { ...inLab, id } });
  const trial = (id: string) => station.ask(routes.trial, { params: { ...inLab, id } });
  const refusal = async (asking: Promise<unknown>) => {
    const error = await asking.then(
      () => undefined,
      (one: unknown) => one,
    );
    return error instanceof ApiProblem ? [error.problem.status, error.problem.code] : error;
  };
  const ended = async (id = run.id) => {
    for (;;) {
      const now = await station.ask(r.recomputation, at(id));
      if (now.state !== 'running') return now;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  };

  it('judges every trial that can be judged, shows nothing of it, and names the others', async () => {
    const before = await Promise.all(trials.slice(0, -1).map(trial));
    run = await station.ask(r.startRecomputation, { params: inLab, body: { method: 'fixed-75', by } });
    expect(run).toMatchObject({ state: 'running', trials: 12, startedBy: by, method: methodReference(fixed) });
    expect(
      await refusal(station.ask(r.startRecomputation, { params: inLab, body: { method: 'standard', by } })),
    ).toEqual([409, 'recomputation-running']);
    run = await ended();
    expect(run).toMatchObject({ state: 'finished', done: 11, failed: 1, behind: 0, here: false });
    const { rows } = await station.ask(r.recomputationFailures, at());
    expect(rows).toMatchObject([{ trial: trials.at(-1), code: 'file-damaged', order: 3 }]);
    expect(await Promise.all(trials.slice(0, -1).map(trial))).toEqual(before);
    expect((await station.ask(routes.methods, { params: inLab })).find(({ current }) => current)?.id).toBe('standard');
  });

  it('names the pages that were handed out and would read differently', async () => {
    const { pages, otherWord, otherNumber, rows } = await station.ask(r.recomputationReports, at());
    // One athlete's page, asked for twice, and a squad of three with a value.
    expect([pages, otherWord, otherNumber]).toEqual([4, 0, 1]);
    expect(rows).toMatchObject([
      { kind: 'athlete', person: { code: 'FW01' }, metric: { id: 'force_at_100', unit: 'N' }, reads: 'another-number' },
    ]);
    const [row] = rows;
    expect(row?.now.value).not.toBe(row?.was.value);
    const view = await station.ask(routes.athlete, {
      params: { ...inLab, id: row?.person.id as string },
      query: { metric: 'force_at_100' },
    });
    // What is in force still is what was handed out.
    expect(view.sessions.find(({ id }) => id === row?.session)?.value).toBe(row?.was.value);
  });

  it('compares every metric, trial by trial and session by session', async () => {
    const { metrics, complete } = await station.ask(r.recomputationComparison, at());
    expect(complete).toBe(true);
    const row = (id: string) => metrics.find((one) => one.id === id);
    // Peak force needs no onset: every value is the same. Force at 100 ms moves with it.
    expect(row('peak_force')).toMatchObject({ same: true, scale: 'log' });
    const moved = row('force_at_100');
    expect(moved).toMatchObject({ same: false, scale: 'log', unit: 'N' });
    const { pairs, total, metric } = await station.ask(r.recomputationPairs, {
      ...at(),
      query: { metric: 'force_at_100', level: 'trial' },
    });
    expect(total).toBe(moved?.n);
    const logs = pairs.map(({ first, second }) => 100 * Math.log(second / first));
    const bias = logs.reduce((sum, one) => sum + one, 0) / logs.length;
    const limits = moved?.study?.limits;
    expect(limits?.ok && limits.value.bias.value).toBeCloseTo(bias, 9);
    expect(metric.study?.passingBablok).toBeDefined();
    // A hand-placed onset stays where it is, so this trial's value is the same under both.
    const byHand = pairs.find((one) => one.trial === trials[0]);
    expect(byHand?.second).toBe(byHand?.first);
    expect(pairs.some((one) => one.trial === trials[1])).toBe(false);
    const sessions = await station.ask(r.recomputationPairs, {
      ...at(),
      query: { metric: 'force_at_100', level: 'session' },
    });
    expect(sessions.total).toBeLessThanOrEqual(4);
    const own = pairs.filter(({ session }) => session === sessions.pairs[0]?.session);
    expect(own.length).toBeGreaterThan(0);
  });

  it('lists the verdicts that would change, with the checks that make it', async () => {
    const { counted, rows } = await station.ask(r.recomputationFlips, at());
    expect(counted.reduce((sum, one) => sum + one.trials, 0)).toBe(11);
    const flipped = counted.filter(({ from, to }) => from !== to).reduce((sum, one) => sum + one.trials, 0);
    expect(rows).toHaveLength(flipped);
    for (const row of rows) expect(row.checks.length).toBeGreaterThan(0);
  });

  it('judges as the protocol of the session has it, and from nothing but what is stored', async () => {
    await withLab(folder, async (lab) => {
      const outcomes = await lab.store.recomputations.outcomes(run.id);
      const third = outcomes.find((one) => one.trial === trials[3]);
      const candidate = await lab.store.results.get(third?.after?.result ?? '');
      expect(candidate?.document.method.name).toBe('Fixed 75 N, with checks.spike off');
      expect(candidate?.document.checks).not.toHaveProperty('spike');
      for (const { trial: id, after } of outcomes) {
        const { made } = await judgeTrial(lab, id, fixed, readingOneAfterTheOther());
        expect('document' in made).toBe(after !== undefined);
        if ('document' in made)
          expect(made.document).toEqual((await lab.store.results.get(after?.result ?? ''))?.document);
      }
    });
  });

  it('is not adopted while plates are measured', async () => {
    const capture = await withLab(folder, async ({ store }) => {
      const rig = await store.rigs.add(
        { name: 'Dry rig', letter: 'D', shape: 'two-plates', sources: [], notes: '', active: true } as never,
        stationActor,
      );
      const startedAt = '2026-03-02T08:00:00.000Z' as never;
      return (await store.captures.add({ rig: rig.id, startedAt, journals: [] }, stationActor)).id;
    });
    expect(await refusal(station.ask(r.adoptRecomputation, { ...at(), body: { by, reason } }))).toEqual([
      409,
      'rigs-open',
    ]);
    await withLab(folder, ({ store }) => store.captures.change(capture, { state: 'closed' }, stationActor));
  });

  it('is adopted in one act, after what changed meanwhile was judged too', async () => {
    const other = trials[6] as string;
    const index = 2500;
    await station.ask(routes.decide, {
      params: { ...inLab, id: other },
      body: { kind: 'onset-by-hand', index, reason: 'Early by eye.', by },
    });
    expect(await station.ask(r.recomputation, at())).toMatchObject({ state: 'finished', behind: 1 });
    run = await station.ask(r.adoptRecomputation, { ...at(), body: { by, reason } });
    expect(run).toMatchObject({ state: 'adopted', ended: { by, reason } });
    for (const id of trials.slice(0, -1)) {
      const { result, provenance, state } = await trial(id);
      expect(provenance.method.name).toMatch(/^Fixed 75 N/);
      if (id === other) expect(result.onset).toMatchObject({ ok: true, value: { index, byHand: { by } } });
      if (id === trials[1]) expect(state).toBe('excluded');
    }
    const methods = await station.ask(routes.methods, { params: inLab });
    expect(methods.filter(({ current }) => current).map(({ id }) => id)).toEqual(['fixed-75']);
    const audit = await station.ask(routes.audit, { params: inLab, query: { limit: 500 } });
    expect(audit.intact).toBe(true);
    expect(audit.entries.map(({ action }) => action)).toEqual(
      expect.arrayContaining(['recomputation.adopt', 'setting.set']),
    );
    expect(await refusal(station.ask(r.discardRecomputation, { ...at(), body: { by, reason } }))).toEqual([
      409,
      'recomputation-state',
    ]);
  });

  it('gives the method to what comes later, and can be gone back on', async () => {
    const { bytes } = await simulatedFile(77);
    const upload = await station.ask(routes.upload, { params: inLab, query: { name: 'later.csv' }, bytes });
    const [person] = await station.ask(routes.people, { params: inLab });
    const inputs = (['left', 'right'] as const).map((part, index) => ({
      from: { kind: 'channel' as const, index },
      part,
    }));
    const mapping = { reading: {}, inputs, test: 'imtp', efforts: 'largest' as const };
    const outcome = await station.ask(routes.import, {
      params: inLab,
      body: { upload: upload.id, person: { id: person?.id ?? '' }, onDuplicate: 'skip', mapping, by },
    });
    const later = outcome.trials[0]?.id as string;
    expect((await trial(later)).provenance.method).toEqual(methodReference(fixed));
    const back = await station.ask(r.startRecomputation, { params: inLab, body: { method: 'standard', by } });
    await ended(back.id);
    await station.ask(r.adoptRecomputation, { ...at(back.id), body: { by, reason: 'Back.' } });
    expect((await trial(later)).provenance.method).toEqual(methodReference(defaultMethod));
    const dropped = await station.ask(r.startRecomputation, { params: inLab, body: { method: fixedHash, by } });
    await ended(dropped.id);
    await station.ask(r.discardRecomputation, { ...at(dropped.id), body: { by, reason: 'Only tried.' } });
    expect((await trial(later)).provenance.method).toEqual(methodReference(defaultMethod));
    expect((await station.ask(r.recomputations, { params: inLab })).map(({ state }) => state)).toEqual([
      'discarded',
      'adopted',
      'adopted',
    ]);
  });
});
