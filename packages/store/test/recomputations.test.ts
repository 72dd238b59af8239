import { expect, it } from 'vitest';
import type { Store, TrialOutcome } from '../src/index.ts';
import { coach, onBothEngines } from './engines.ts';
import { method, methodHash, oneTrial, otherMethodHash, resultOf, versions } from './fernwater.ts';

/** A lab of three trials, each with a result, and a run over them under another method. */
async function runOverThree(store: Store) {
  const { person, session, trial, recording } = await oneTrial(store);
  await store.methods.add(otherMethodHash, { ...method, version: 2 }, coach);
  // A trial takes part only where it is known which force its recording holds.
  const forceSelection = { inputs: [{ from: { kind: 'channel', index: 0 }, part: 'total' }] } as never;
  await store.trials.change(trial.id, { forceSelection }, coach);
  const more = { session: session.id, effort: 'maximal', recording: recording.sha256, forceSelection } as const;
  const trials = [trial.id, (await store.trials.add(more, coach)).id, (await store.trials.add(more, coach)).id];
  for (const [i, one] of trials.entries())
    await store.results.add({ trial: one, document: resultOf(2000 + i), versions }, coach);
  const run = await store.recomputations.add({ method: otherMethodHash }, coach);
  return { person, session, trials, run: run.id };
}

/** As the run would find it: the newest candidate of each trial under the other method. */
async function outcome(
  store: Store,
  trial: string,
  peak: number | undefined,
  verdict = 'counts',
): Promise<TrialOutcome> {
  const view = await store.trials.view(trial);
  if (view === undefined) throw new Error('no trial');
  return {
    trial,
    trialRevision: view.trial.revision,
    sessionRevision: view.session.revision,
    basis: (await store.audit.last())?.sequence ?? 0,
    ...(view.result === undefined ? {} : { before: { result: view.result.id, verdict: view.result.document.verdict } }),
    made:
      peak === undefined
        ? { code: 'not-found', words: 'There is no such recording.' }
        : { document: resultOf(peak, verdict as 'counts', otherMethodHash), versions },
  };
}

const peakOf = async (store: Store, trial: string) =>
  (await store.results.current(trial))?.document.metrics.peak_force as { value: number } | undefined;

onBothEngines('a recomputation', (place) => {
  it('keeps candidates that nobody sees before it is adopted, and everybody after', async () => {
    const store = await (await place()).open();
    const { person, session, trials, run } = await runOverThree(store);
    const [first = '', second = '', third = ''] = trials;
    expect(await store.recomputations.counts(run)).toEqual({ trials: 3, done: 0, failed: 0 });
    expect((await store.recomputations.pending(run, 10)).map(({ trial }) => trial).sort()).toEqual([...trials].sort());
    const outcomes = [
      await outcome(store, first, 3000),
      await outcome(store, second, 3001, 'repeat'),
      await outcome(store, third, undefined),
    ];
    expect(await store.recomputations.keep(run, outcomes, coach)).toBe(3);
    // The same work done twice, as by two processes, is kept once.
    expect(await store.recomputations.keep(run, outcomes, coach)).toBe(0);
    expect(await store.recomputations.counts(run)).toEqual({ trials: 3, done: 2, failed: 1 });
    expect(await store.recomputations.pending(run, 10)).toEqual([]);

    const seen = async () => ({
      current: (await peakOf(store, first))?.value,
      method: (await store.results.current(first, otherMethodHash))?.id,
      list: (await store.sessions.list()).items[0]?.trials.byStanding.repeat,
      points: (await store.results.history({ of: { person: person.id }, metric: 'peak_force' })).map(
        ({ metric }) => metric && 'value' in metric && metric.value,
      ),
      siblings: (await store.trials.view(first))?.siblings.map(({ standing }) => standing.verdict),
    });
    expect(await seen()).toEqual({
      current: 2000,
      method: undefined,
      list: 0,
      points: [2000, 2001, 2002],
      siblings: ['counts', 'counts', 'counts'],
    });
    const rows = await store.recomputations.outcomes(run);
    expect(rows.map(({ trial }) => trial)).toEqual([...trials].sort());
    expect(rows.find(({ trial }) => trial === second)).toMatchObject({
      session: session.id,
      before: { verdict: 'counts', method: methodHash },
      after: { verdict: 'repeat' },
    });
    expect(await store.recomputations.outcomes(run, { only: 'failed' })).toMatchObject([
      { trial: third, problem: { code: 'not-found' } },
    ]);
    expect((await store.recomputations.outcomes(run, { only: 'flipped' })).map(({ trial }) => trial)).toEqual([second]);
    expect(await store.recomputations.flips(run)).toEqual([
      { from: 'counts', to: 'counts', trials: 1 },
      { from: 'counts', to: 'repeat', trials: 1 },
    ]);

    await store.transaction(async (inside) => {
      await inside.recomputations.change(run, { state: 'adopted' }, coach, { reason: 'agreed' });
      await inside.settings.set('analysis.method', otherMethodHash, coach, { reason: 'agreed' });
    });
    expect(await seen()).toMatchObject({ current: 3000, list: 1, points: [3000, 3001, 2002] });
    expect(await store.audit.verify()).toMatchObject({ intact: true });
    expect(await store.audit.verifyRecords()).toEqual([]);
    const { metric } = (await store.results.history({ of: 'everyone', metric: 'peak_force', method: methodHash }))[0]!;
    expect(metric).toEqual({ value: 2000, unit: 'N' });
  });

  it('asks again for what changed since, and keeps nothing once it does not run', async () => {
    const store = await (await place()).open();
    const { session, trials, run } = await runOverThree(store);
    for (const trial of trials) await store.recomputations.keep(run, [await outcome(store, trial, 3000)], coach);
    const [first = '', second = '', third = ''] = trials;
    const due = async () => (await store.recomputations.pending(run, 10)).map(({ trial }) => trial).sort();
    expect(await due()).toEqual([]);
    const stale = await outcome(store, first, 3100);
    await store.decisions.add(
      { trial: first, kind: 'onset-by-hand', payload: { index: 1200 }, reason: 'Late.' },
      coach,
    );
    await store.results.add({ trial: second, document: resultOf(2050), versions }, coach);
    await store.trials.change(third, { cue: 900 }, coach);
    expect(await due()).toEqual([...trials].sort());
    // Judged before the decision: still to do afterwards.
    expect(await store.recomputations.keep(run, [stale], coach)).toBe(1);
    expect(await due()).toContain(first);
    for (const trial of trials) await store.recomputations.keep(run, [await outcome(store, trial, 3200)], coach);
    expect(await due()).toEqual([]);
    await store.sessions.change(session.id, { bodyWeight: { value: 800, from: 'given' } }, coach);
    expect(await due()).toEqual([...trials].sort());
    await store.recomputations.change(run, { state: 'paused' }, coach);
    expect(await store.recomputations.keep(run, [await outcome(store, first, 3300)], coach)).toBe(0);
    await store.recomputations.change(run, { state: 'discarded' }, coach, { reason: 'Not wanted.' });
    expect((await peakOf(store, second))?.value).toBe(2050);
    expect(await store.recomputations.list({ state: 'discarded' })).toMatchObject([{ id: run, state: 'discarded' }]);
    expect(await store.audit.verifyRecords()).toEqual([]);
  });

  it('says page by page what is due, and gives all that trials are judged from at once', async () => {
    const store = await (await place()).open();
    const { trials, run } = await runOverThree(store);
    const all = await store.recomputations.pending(run, 10);
    const paged: string[] = [];
    for (let after: (typeof all)[number] | undefined; ; ) {
      const [next] = await store.recomputations.pending(run, 1, after);
      if (next === undefined) break;
      paged.push(next.trial);
      after = next;
    }
    expect(paged).toEqual(all.map(({ trial }) => trial));
    const [first = '', second = ''] = trials;
    await store.decisions.add(
      { trial: first, kind: 'exclude', payload: { category: 'other' }, reason: 'Slip.' },
      coach,
    );
    await store.recomputations.keep(run, [await outcome(store, first, 3000)], coach);
    await store.results.add({ trial: second, document: resultOf(2500, 'repeat'), versions }, coach);
    const bases = await store.recomputations.bases([second, 'nowhere', first]);
    expect(bases.map(({ trial }) => trial.id)).toEqual([second, first]);
    for (const { trial, session, effective, before, file } of bases) {
      const view = await store.trials.view(trial.id);
      const { result } = view!;
      expect({ trial, session, effective }).toEqual({
        trial: view?.trial,
        session: view?.session,
        effective: view?.effective,
      });
      // The candidate of the run is newer and not in force.
      expect(before).toEqual({ result: result?.id, verdict: result?.document.verdict });
      expect(file).toEqual({ format: view?.recording?.format, name: view?.recording?.fileName });
    }
  });

  it('keeps more outcomes by one act than one statement holds, all or none of them', async () => {
    const store = await (await place()).open();
    const { session, trials, run } = await runOverThree(store);
    const known = await store.trials.get(trials[0] as string);
    const { recording, forceSelection } = known!;
    const more = { session: session.id, effort: 'maximal', recording, forceSelection } as never;
    const many = [...trials];
    await store.transaction(async (inside) => {
      for (let i = 0; i < 130; i++) many.push((await inside.trials.add(more, coach)).id);
    });
    const basis = (await store.audit.last())?.sequence ?? 0;
    const revisions = new Map((await store.recomputations.bases(many)).map(({ trial }) => [trial.id, trial.revision]));
    const outcomes = many.map(
      (trial, i): TrialOutcome => ({
        ...{ trial, trialRevision: revisions.get(trial) ?? 0, sessionRevision: session.revision, basis },
        made:
          i % 10 === 9
            ? { code: 'not-found', words: 'There is no such recording.' }
            : { document: resultOf(3000 + i, 'counts', otherMethodHash), versions },
      }),
    );
    const broken = { ...outcomes[100]!, made: { document: resultOf(1, 'counts', 'f'.repeat(64)), versions } };
    await expect(store.recomputations.keep(run, outcomes.with(100, broken), coach)).rejects.toThrow();
    expect(await store.recomputations.counts(run)).toEqual({ trials: 133, done: 0, failed: 0 });
    expect((await store.audit.last())?.sequence).toBe(basis);
    expect(await store.recomputations.keep(run, outcomes, coach)).toBe(133);
    expect(await store.recomputations.counts(run)).toEqual({ trials: 133, done: 120, failed: 13 });
    const rows = await store.recomputations.outcomes(run);
    for (const { trial, after } of rows) {
      const value = after && (await store.results.get(after.result))?.document.metrics.peak_force;
      const i = many.indexOf(trial);
      expect(value).toEqual(i % 10 === 9 ? undefined : resultOf(3000 + i).metrics.peak_force);
    }
    expect(await store.recomputations.pending(run, 10)).toEqual([]);
    expect(await store.audit.verify()).toMatchObject({ intact: true, entries: basis + 120 });
    expect(await store.audit.verifyRecords()).toEqual([]);
  });

  it('cannot make a candidate of another result, nor another result of a candidate', async () => {
    const here = await place();
    const store = await here.open();
    const { trials, run } = await runOverThree(store);
    await store.recomputations.keep(run, [await outcome(store, trials[0] as string, 3000)], coach);
    await expect(here.run('update results set run_id = null')).rejects.toThrow();
    await here.tamper('update results set run_id = null where run_id is not null');
    expect(await store.audit.verifyRecords()).toMatchObject([{ table: 'results', problem: 'edited' }]);
  });
});
