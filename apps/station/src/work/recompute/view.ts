import { mostBehind, type Recomputation as RecomputationView } from '@sthene/contract';
import { methodReference } from '@sthene/core';
import type { Recomputation } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { findMethod } from '../methods.ts';
import type { Recomputing } from './recomputing.ts';

/** Every run, newest first. */
export async function listRuns(lab: OpenLab, work: Recomputing): Promise<RecomputationView[]> {
  return Promise.all((await lab.store.recomputations.list()).map((run) => viewOf(lab, work, run)));
}

export async function showRun(lab: OpenLab, work: Recomputing, id: string): Promise<RecomputationView> {
  const run = await lab.store.recomputations.get(id);
  if (run === undefined) throw problems.notFound('recomputation');
  return viewOf(lab, work, run, true);
}

async function viewOf(lab: OpenLab, work: Recomputing, run: Recomputation, alone = false): Promise<RecomputationView> {
  const { recomputations, revisions } = lab.store;
  const [{ trials, done, failed }, states, method] = await Promise.all([
    recomputations.counts(run.id),
    revisions.of('recomputation', run.id),
    findMethod(lab, run.method),
  ]);
  const pace = work.pace(run.id);
  const left = Math.max(0, trials - done - failed);
  const last = states.at(-1);
  const rate = run.state === 'running' ? pace?.rate : undefined;
  return {
    id: run.id,
    method: { ...methodReference(method) },
    state: run.state,
    startedAt: run.startedAt,
    startedBy: await lab.nameOf(states[0]?.by ?? ''),
    ...(run.endedAt === undefined || last === undefined
      ? {}
      : { ended: { at: run.endedAt, by: await lab.nameOf(last.by), reason: last.reason } }),
    words: run.words,
    ...{ trials, done, failed },
    // A count over the whole archive: only for the one that is looked at, where it matters, and not while plates are measured.
    ...(alone && run.state === 'finished' && !work.waits ? { behind: await behindOf(lab, run) } : {}),
    here: pace !== undefined,
    waiting: pace?.waiting ?? false,
    ...(rate === undefined ? {} : { rate, remaining: left / rate }),
  };
}

const counted = new WeakMap<OpenLab, { readonly key: string; readonly behind: number }>();

/** Trials that changed since a run finished; counted again only when something was written since. */
async function behindOf(lab: OpenLab, { id, revision }: Recomputation): Promise<number> {
  const key = `${id} ${revision} ${(await lab.store.audit.last())?.sequence ?? 0}`;
  const known = counted.get(lab);
  if (known?.key === key) return known.behind;
  const behind = (await lab.store.recomputations.pending(id, mostBehind)).length;
  counted.set(lab, { key, behind });
  return behind;
}
