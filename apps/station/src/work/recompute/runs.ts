import { setTimeout as wait } from 'node:timers/promises';
import { methodReference } from '@sthene/core';
import type { Recomputation, RecomputationState } from '@sthene/store';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { findMethod, methodSetting } from '../methods.ts';
import type { Recomputing } from './recomputing.ts';

/** From which states each act of a person is possible. */
const from: Readonly<Record<'pause' | 'resume' | 'adopt' | 'discard', readonly RecomputationState[]>> = {
  pause: ['running'],
  resume: ['running', 'paused', 'failed'],
  adopt: ['finished'],
  discard: ['running', 'paused', 'finished', 'failed'],
};

/** So few trials that changed since are judged while somebody waits for the adoption. */
const inPassing = 50;

/** A run, allowed to be acted on. */
async function runFor(lab: OpenLab, id: string, act: keyof typeof from): Promise<Recomputation> {
  const run = await lab.store.recomputations.get(id);
  if (run === undefined) throw problems.notFound('recomputation');
  if (!from[act].includes(run.state)) throw refusals.notInState(act, run.state);
  return run;
}

const refusals = {
  notInState: (act: string, state: RecomputationState) =>
    new ProblemError(
      409,
      'recomputation-state',
      `This recomputation is ${state}; it cannot be asked to ${act}.`,
      'Nothing was changed. Look at it again: somebody may have acted meanwhile.',
    ),
  another: () =>
    new ProblemError(
      409,
      'recomputation-running',
      'Another recomputation is under way.',
      'Let it finish, or discard it, then start this one.',
    ),
  rigsOpen: () =>
    new ProblemError(
      409,
      'rigs-open',
      'A rig is open, or a capture was cut off and not put right yet.',
      'Nothing was adopted. Close the rigs, or start the station once, then adopt: what is measured now is judged with the method the rig was opened with.',
    ),
  behind: () =>
    new ProblemError(
      409,
      'recomputation-behind',
      'Trials were added or changed since the run finished. It goes on with them now.',
      'Nothing was adopted. Look at the comparison when it has finished, then adopt.',
    ),
};

/** Begins a run over the archive. One at a time: two would only slow each other down. */
export async function startRun(
  lab: OpenLab,
  work: Recomputing,
  asked: { readonly method: string; readonly by: string },
): Promise<Recomputation> {
  const method = await findMethod(lab, asked.method);
  const { sha256 } = methodReference(method);
  const actor = await lab.actor(asked.by);
  const run = await lab.store.transaction(async (inside) => {
    for (const state of ['running', 'paused'] as const)
      if ((await inside.recomputations.list({ state })).length > 0) throw refusals.another();
    await inside.methods.add(sha256, method, actor);
    return inside.recomputations.add({ method: sha256 }, actor);
  });
  work.begin(run.id);
  return run;
}

export async function pauseRun(lab: OpenLab, id: string, by: string): Promise<void> {
  const run = await runFor(lab, id, 'pause');
  await lab.store.recomputations.change(id, { state: 'paused' }, await lab.actor(by), { expected: run.revision });
}

/** Goes on with a run, also with one that another process was killed at. */
export async function resumeRun(lab: OpenLab, work: Recomputing, id: string, by: string): Promise<void> {
  const run = await runFor(lab, id, 'resume');
  if (run.state !== 'running')
    await lab.store.recomputations.change(id, { state: 'running', words: '' }, await lab.actor(by), {
      expected: run.revision,
    });
  work.begin(id);
}

/** Ends a run without effect: its candidates stay in the store and are never looked at again. */
export async function discardRun(lab: OpenLab, id: string, by: string, reason: string): Promise<void> {
  const run = await runFor(lab, id, 'discard');
  const actor = await lab.actor(by);
  await lab.store.recomputations.change(id, { state: 'discarded' }, actor, { reason, expected: run.revision });
}

/**
 * Puts the run's results in force and makes its method the lab's, in one act. What changed since the run finished is judged first, so
 * that every trial then stands under the new method.
 *
 * @param measuring whether plates of this process are being measured
 */
export async function adoptRun(
  lab: OpenLab,
  work: Recomputing,
  id: string,
  { by, reason, measuring }: { readonly by: string; readonly reason: string; readonly measuring: () => boolean },
): Promise<void> {
  const run = await runFor(lab, id, 'adopt');
  if (measuring()) throw refusals.rigsOpen();
  await catchUp(lab, work, run, measuring);
  const actor = await lab.actor(by);
  await lab.store.transaction(async (inside) => {
    const now = await inside.recomputations.get(id);
    if (now?.state !== 'finished') throw refusals.notInState('adopt', now?.state ?? 'discarded');
    if ((await inside.recomputations.pending(id, 1)).length > 0) throw refusals.behind();
    if ((await inside.captures.list({ state: 'running' })).length > 0) throw refusals.rigsOpen();
    await inside.recomputations.change(id, { state: 'adopted' }, actor, { reason });
    await inside.settings.set(methodSetting, run.method, actor, { reason });
    // Last, and with nothing to wait for after it but the commit: a rig that opens later finds the new method.
    if (measuring()) throw refusals.rigsOpen();
  });
}

async function catchUp(lab: OpenLab, work: Recomputing, run: Recomputation, measuring: () => boolean): Promise<void> {
  const { recomputations } = lab.store;
  const due = await recomputations.pending(run.id, inPassing + 1);
  if (due.length === 0) return;
  await recomputations.change(run.id, { state: 'running' }, stationActor, { expected: run.revision });
  work.begin(run.id);
  if (due.length > inPassing) throw refusals.behind();
  // The run holds while plates are measured; nobody has to wait for that here.
  const done = work.idle().then(() => true);
  while (!(await Promise.race([done, wait(200, false)]))) if (measuring()) throw refusals.rigsOpen();
}
