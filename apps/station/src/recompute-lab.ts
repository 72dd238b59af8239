import {
  application,
  type ComparedMetric,
  type FailedTrials,
  type Flips,
  type Recomputation as RecomputationView,
} from '@sthene/contract';
import { type Method, methodReference } from '@sthene/core';
import type { Recomputation } from '@sthene/store';
import { dataFolder } from './data-folder.ts';
import { Labs } from './labs/labs.ts';
import type { ReadLabOptions } from './read-lab.ts';
import { findMethod } from './work/methods.ts';
import { comparisonOf } from './work/recompute/comparison.ts';
import { failuresOfRun, flipsOfRun } from './work/recompute/flips.ts';
import { Recomputing } from './work/recompute/recomputing.ts';
import { adoptRun, discardRun, resumeRun, startRun } from './work/recompute/runs.ts';
import { showRun } from './work/recompute/view.ts';

/** A lab whose archive is judged again from a script. */
export interface LabRecomputer {
  readonly folder: string;
  /** A method by built-in id or hash that this lab knows; undefined where it does not. */
  method(idOrHash: string): Promise<Method | undefined>;
  /**
   * Judges everything under a method: goes on with a run of the same method that has not been adopted or discarded, else begins one.
   * Resolves when nothing is left to do, or after `stop`.
   */
  through(method: Method, by: string, report: (run: RecomputationView) => void): Promise<RecomputationView>;
  comparison(run: string): Promise<readonly ComparedMetric[]>;
  flips(run: string): Promise<Flips>;
  failures(run: string): Promise<FailedTrials>;
  adopt(run: string, by: string, reason: string): Promise<void>;
  discard(run: string, by: string, reason: string): Promise<void>;
  /** Ends after the trial under way; what was done stays, and the next call goes on. */
  stop(): Promise<void>;
  close(): Promise<void>;
}

/** Opens a lab that is there, to judge it again. A station may run beside it; it must not measure while a run is adopted. */
export async function recomputeLab(options: ReadLabOptions = {}): Promise<LabRecomputer> {
  const data = dataFolder(options.data);
  const database = options.database ?? process.env.STHENE_DATABASE;
  const labs = new Labs({ data, application, ...(database === undefined ? {} : { database }) });
  const lab = await labs.open(options.lab ?? 'lab');
  const work = new Recomputing(lab);
  return {
    folder: lab.folder,
    method: (idOrHash) => findMethod(lab, idOrHash).catch(() => undefined),
    async through(method, by, report) {
      const { sha256 } = methodReference(method);
      const open = (await lab.store.recomputations.list()).find((run) => run.method === sha256 && isOpen(run));
      if (open === undefined) await lab.store.methods.add(sha256, method, await lab.actor(by));
      const { id } = open ?? (await startRun(lab, work, { method: sha256, by }));
      if (open !== undefined) await goOn(id, open, by);
      const timer = setInterval(() => void showRun(lab, work, id).then(report, () => {}), 500);
      await work.idle();
      clearInterval(timer);
      return showRun(lab, work, id);
    },
    async comparison(run) {
      for (;;) {
        const { metrics, complete } = await comparisonOf(lab, run);
        if (complete) return metrics;
      }
    },
    flips: (run) => flipsOfRun(lab, run, undefined),
    failures: (run) => failuresOfRun(lab, run, undefined),
    adopt: (run, by, reason) => adoptRun(lab, work, run, { by, reason, measuring: () => false }),
    discard: (run, by, reason) => discardRun(lab, run, by, reason),
    stop: () => work.stop(),
    close: () => labs.close(),
  };

  async function goOn(id: string, run: Recomputation, by: string): Promise<void> {
    if (run.state !== 'finished') return resumeRun(lab, work, id, by);
    // Finished, but perhaps not of today.
    if ((await lab.store.recomputations.pending(id, 1)).length > 0) await reopenRun(id, by);
  }

  async function reopenRun(id: string, by: string): Promise<void> {
    await lab.store.recomputations.change(id, { state: 'running' }, await lab.actor(by));
    work.begin(id);
  }
}

const isOpen = ({ state }: Recomputation): boolean => state !== 'adopted' && state !== 'discarded';
