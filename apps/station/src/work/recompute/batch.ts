import type { JudgingBasis, Store, TrialOutcome } from '@sthene/store';
import { stationActor } from '../../labs/open-lab.ts';
import type { Made } from './judging/order.ts';

/** Trials kept by one act at most, and the longest time a batch is gathered, ms: what a kill may cost. */
const batchTrials = 250;
const batchTime = 1_000;

/** Gathers what was made of trials and keeps it in the store, many at once. */
export class Batch {
  readonly #store: Store;
  readonly #run: string;
  readonly #report: (kept: number, spent: number) => void;
  #outcomes: TrialOutcome[] = [];
  #since = performance.now();

  /** @param report how many were kept, and the time that took from the batch before, ms */
  constructor(store: Store, run: string, report: (kept: number, spent: number) => void) {
    this.#store = store;
    this.#run = run;
    this.#report = report;
  }

  /** @param seen end of the audit trail before the trial was read */
  add({ trial, session, before }: JudgingBasis, seen: number, made: Made): void {
    this.#outcomes.push({
      trial: trial.id,
      trialRevision: trial.revision,
      sessionRevision: session.revision,
      basis: seen,
      ...(before === undefined ? {} : { before }),
      made,
    });
  }

  /** Whether it is time to keep what there is. */
  get due(): boolean {
    return this.#outcomes.length >= batchTrials || performance.now() - this.#since > batchTime;
  }

  /** @returns false where not all of it was kept: trials are not due any more, or the run does not run */
  async keep(): Promise<boolean> {
    const outcomes = this.#outcomes;
    this.#outcomes = [];
    const kept = outcomes.length === 0 ? 0 : await this.#store.recomputations.keep(this.#run, outcomes, stationActor);
    this.#report(kept, performance.now() - this.#since);
    this.waited();
    return kept === outcomes.length;
  }

  /** Time that went by without work does not count. */
  waited(): void {
    this.#since = performance.now();
  }
}
