import { setTimeout as wait } from 'node:timers/promises';
import {
  type JudgingBasis,
  type PendingTrial,
  type Recomputation,
  type RecomputationState,
  StoreError,
} from '@sthene/store';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';
import { findMethod } from '../methods.ts';
import { Batch } from './batch.ts';
import type { Judges } from './judging/judges.ts';
import { judgesFor } from './judging/judges-for.ts';
import { Ordering } from './judging/orders-of.ts';

/** How often a run looks whether the plates are quiet again, and whether they still are, ms. */
const patience = 500;
const alertness = 50;
/** Trials asked for at once, and those of them that are read at once. */
const ahead = 2_000;
const atOnce = 250;

/** How a run stands in this process. */
export interface RunPace {
  /** Trials a second, over what this process has done. */
  readonly rate?: number;
  /** It waits because plates are being measured. */
  readonly waiting: boolean;
}

/**
 * Judges the archive of a lab under another method. Files are read and trials judged in threads of their own where there are many;
 * this one only writes. Everything of importance stands in the store: after a kill the run goes on with what is still to do.
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
  #judges: Judges | undefined;
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

  /** Stops after the trials it is at; the run stays running, for the next start to go on with. */
  async stop(): Promise<void> {
    this.#stopped = true;
    await this.#judges?.close();
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
    // Once through the archive, then from its beginning for what changed meanwhile, until nothing is left.
    let after: PendingTrial | undefined;
    // Plates may be opened at any time, also while everything is handed out and nothing comes back.
    const watch = setInterval(() => this.#judges?.hold(this.#busy()), alertness);
    try {
      while (!this.#stopped) {
        const record = await recomputations.get(run);
        if (record?.state !== 'running') return;
        const due = await recomputations.pending(run, ahead, after);
        if (due.length > 0) after = (await this.#judge(record, due)) ? due.at(-1) : undefined;
        else if (after !== undefined) after = undefined;
        else if (await this.#change(record, { state: 'finished' })) return;
      }
    } finally {
      clearInterval(watch);
      await this.#judges?.close();
      this.#judges = undefined;
    }
  }

  /** @returns false where something was not kept, because it changed meanwhile or the run does not run any more */
  async #judge(record: Recomputation, due: readonly PendingTrial[]): Promise<boolean> {
    const { store } = this.#lab;
    const ordering = new Ordering(this.#lab, await findMethod(this.#lab, record.method));
    this.#judges ??= judgesFor(this.#lab, due.length);
    const judges = this.#judges;
    const batch = new Batch(store, record.id, (kept, spent) => {
      this.#kept += kept;
      this.#spent += spent;
    });
    const under = new Set<Promise<void>>();
    try {
      for (let start = 0; start < due.length; start += atOnce) {
        // Whatever comes into the trail after this was not seen, and makes the trial pending again.
        const seen = (await store.audit.last())?.sequence ?? 0;
        const bases = await store.recomputations.bases(due.slice(start, start + atOnce).map(({ trial }) => trial));
        const { orders, refused } = await ordering.of(bases);
        for (const { basis, made } of refused) batch.add(basis, seen, made);
        for (const { order, bases: own } of orders) {
          while (under.size >= judges.room) await Promise.race(under);
          if (!(await this.#quiet(batch))) return this.#stopped && batch.keep();
          if (batch.due && !(await batch.keep())) return false;
          const judging = judges.judge(order).then((made) => {
            for (const [i, one] of made.entries()) batch.add(own[i] as JudgingBasis, seen, one);
          });
          under.add(judging);
          judging.then(
            () => under.delete(judging),
            () => {},
          );
        }
      }
      while (under.size > 0) await Promise.race(under);
    } catch (error) {
      if (!this.#stopped) throw error;
    }
    return batch.keep();
  }

  /**
   * Waits while plates are measured: an effort is worth more than this. What was made so far is kept before.
   *
   * @returns false where the work ends here
   */
  async #quiet(batch: Batch): Promise<boolean> {
    if (this.#busy() && !(await batch.keep())) return false;
    while (this.#busy() && !this.#stopped) {
      this.#waiting = true;
      await wait(patience);
      batch.waited();
    }
    this.#waiting = false;
    return !this.#stopped;
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
