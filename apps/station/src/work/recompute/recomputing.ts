import { setImmediate as turn, setTimeout as wait } from 'node:timers/promises';
import { type Recomputation, type RecomputationState, StoreError, type TrialOutcome } from '@sthene/store';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';
import { findMethod } from '../methods.ts';
import { readingOneAfterTheOther } from '../read-recording.ts';
import { judgeTrial } from './judge.ts';

/** Trials kept by one act at most, and the longest time a batch is gathered, ms: what a kill may cost. */
const batchTrials = 25;
const batchTime = 1_000;
/** How often a run looks whether the plates are quiet again, ms. */
const patience = 500;
/** Trials asked for at once. */
const ahead = 2_000;

/** How a run stands in this process. */
export interface RunPace {
  /** Trials a second, over what this process has done. */
  readonly rate?: number;
  /** It waits because plates are being measured. */
  readonly waiting: boolean;
}

/**
 * Judges the archive of a lab under another method, one trial after the other. Everything of importance stands in the store: after a
 * kill the run goes on with what is still to do.
 */
export class Recomputing {
  readonly #lab: OpenLab;
  readonly #busy: () => boolean;
  #wanted: string | undefined;
  #run: string | undefined;
  #working = false;
  #work: Promise<void> = Promise.resolve();
  #stopped = false;
  #waiting = false;
  #kept = 0;
  #spent = 0;

  /** @param busy whether something goes on that must not be disturbed */
  constructor(lab: OpenLab, busy: () => boolean = () => false) {
    this.#lab = lab;
    this.#busy = busy;
  }

  /** The run this process works on. */
  get run(): string | undefined {
    return this.#run;
  }

  /** Something goes on that must not be disturbed. */
  get waits(): boolean {
    return this.#busy();
  }

  pace(run: string): RunPace | undefined {
    if (run !== this.#run) return undefined;
    const rate = this.#kept === 0 || this.#spent === 0 ? undefined : (1000 * this.#kept) / this.#spent;
    return { waiting: this.#waiting, ...(rate === undefined ? {} : { rate }) };
  }

  /** Begins or goes on with a run that is running. */
  begin(run: string): void {
    if (this.#stopped) return;
    this.#wanted = run;
    if (!this.#working) this.#work = this.#loop();
  }

  /** Resolves when this process works on no run any more. */
  async idle(): Promise<void> {
    await this.#work;
  }

  /** Stops after the trial it is at; the run stays running, for the next start to go on with. */
  async stop(): Promise<void> {
    this.#stopped = true;
    await this.#work;
  }

  async #loop(): Promise<void> {
    this.#working = true;
    while (this.#wanted !== undefined && !this.#stopped) {
      const run = this.#wanted;
      this.#wanted = undefined;
      if (run !== this.#run) [this.#kept, this.#spent] = [0, 0];
      this.#run = run;
      await this.#rounds(run).catch((error: unknown) => this.#fail(run, error));
    }
    this.#run = undefined;
    this.#waiting = false;
    this.#working = false;
  }

  async #rounds(run: string): Promise<void> {
    const { recomputations } = this.#lab.store;
    while (!this.#stopped) {
      const record = await recomputations.get(run);
      if (record?.state !== 'running') return;
      const due = await recomputations.pending(run, ahead);
      if (due.length === 0) {
        if (await this.#change(record, { state: 'finished' })) return;
        continue;
      }
      await this.#judge(
        run,
        record.method,
        due.map(({ trial }) => trial),
      );
    }
  }

  async #judge(run: string, hash: string, due: readonly string[]): Promise<void> {
    const { store } = this.#lab;
    const method = await findMethod(this.#lab, hash);
    const read = readingOneAfterTheOther();
    for (let next = 0; next < due.length && !this.#stopped; ) {
      await this.#quiet();
      const began = performance.now();
      // Whatever comes into the trail after this was not seen, and makes the trial pending again.
      const basis = (await store.audit.last())?.sequence ?? 0;
      const outcomes: TrialOutcome[] = [];
      while (next < due.length && outcomes.length < batchTrials && performance.now() - began < batchTime) {
        const trial = due[next++] as string;
        const { view, made } = await judgeTrial(this.#lab, trial, method, read);
        outcomes.push({
          trial,
          trialRevision: view.trial.revision,
          sessionRevision: view.session.revision,
          basis,
          ...(view.result === undefined
            ? {}
            : { before: { result: view.result.id, verdict: view.result.document.verdict } }),
          made,
        });
        await turn();
        if (this.#stopped || this.#busy()) break;
      }
      const kept = await store.recomputations.keep(run, outcomes, stationActor);
      this.#kept += kept;
      this.#spent += performance.now() - began;
      if (kept < outcomes.length) return;
    }
  }

  /** Waits while plates are measured: an effort is worth more than this. */
  async #quiet(): Promise<void> {
    while (this.#busy() && !this.#stopped) {
      this.#waiting = true;
      await wait(patience);
    }
    this.#waiting = false;
  }

  /** A database that cannot be written cannot keep this either; the run then stays running and goes on at the next start. */
  async #fail(run: string, error: unknown): Promise<void> {
    const words = error instanceof Error ? error.message : String(error);
    const record = await this.#lab.store.recomputations.get(run).catch(() => undefined);
    if (record?.state === 'running') await this.#change(record, { state: 'failed', words }).catch(() => false);
  }

  /** @returns false where somebody else acted on the run meanwhile, which then holds */
  async #change(record: Recomputation, changes: { readonly state: RecomputationState; readonly words?: string }) {
    try {
      await this.#lab.store.recomputations.change(record.id, changes, stationActor, { expected: record.revision });
      return true;
    } catch (error) {
      if (error instanceof StoreError && error.code === 'changed-meanwhile') return false;
      throw error;
    }
  }
}
