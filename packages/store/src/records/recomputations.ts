import type { TrialResult, Verdict } from '@sthene/core';
import { rowsInto } from '../bulk-insert.ts';
import { addRecord, changeRecord } from '../changes.ts';
import type { RecomputedRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import { type JudgingBasis, judgingBases } from '../queries/judging-basis.ts';
import {
  type Flips,
  flipsOf,
  type OutcomeFilter,
  outcomesOf,
  type PendingTrial,
  pendingTrials,
  type RecomputedTrial,
  type ValueOfResult,
  valuesOfResults,
} from '../queries/recomputed.ts';
import type { ChangeOptions } from '../revisions.ts';
import { inTransaction, type Scope, write } from '../scope.ts';
import { turn } from '../turn.ts';
import { appendResults } from './append-results.ts';
import { type Recomputation, recomputationShape as shape } from './recomputation.ts';
import { readRecord, recordTable } from './record-table.ts';
import type { ResultVersions } from './result.ts';
import { type ResultText, resultText } from './result-text.ts';

/** What a run made of one trial, and the state of the trial it saw. */
export interface TrialOutcome {
  readonly trial: string;
  /** Revisions that were read. */
  readonly trialRevision: number;
  readonly sessionRevision: number;
  /** End of the audit trail before the trial was read: whatever comes later was not seen. */
  readonly basis: number;
  /** Result that was in force then. */
  readonly before?: { readonly result: string; readonly verdict: Verdict };
  readonly made:
    | { readonly document: TrialResult; readonly versions: ResultVersions }
    /** The same as it is written. */
    | { readonly text: ResultText }
    /** Why there is none: permanent code and words. */
    | { readonly code: string; readonly words: string };
}

/** How far a run is. */
export interface RunCounts {
  /** Trials of the lab that have a curve. */
  readonly trials: number;
  readonly done: number;
  /** Could not be read or analysed. */
  readonly failed: number;
}

export interface RecomputationRepository {
  /** Begins a run; its method must be kept already (`refers-to-nothing`). */
  add(run: Pick<Recomputation, 'method'>, actor: Actor): Promise<Recomputation>;
  /** Leads a run into another state; adopting and discarding end it. */
  change(
    id: string,
    changes: { readonly state: Recomputation['state']; readonly words?: string },
    actor: Actor,
    options?: ChangeOptions,
  ): Promise<Recomputation>;
  get(id: string): Promise<Recomputation | undefined>;
  /** Newest first. */
  list(filter?: { readonly state?: Recomputation['state'] }): Promise<Recomputation[]>;
  counts(run: string): Promise<RunCounts>;
  /**
   * Trials with a curve that the run has not judged yet, or that changed since it did: another result came into force, somebody
   * decided, trial or session were changed. In the order of their recordings, so that each file is read once.
   *
   * @param after only those that come after this one: what lies before it is asked for when the end is reached
   */
  pending(run: string, limit: number, after?: PendingTrial): Promise<PendingTrial[]>;
  /** What trials are judged from, as it lies now, in the order asked for; trials that are not there are left out. At most 1000 at once. */
  bases(trials: readonly string[]): Promise<JudgingBasis[]>;
  /**
   * Keeps outcomes of a running run in one act: candidates and what was noted of each trial. A trial that is not pending any more is
   * left out, so nothing is kept twice; a run that is not running keeps nothing.
   *
   * @returns how many were kept
   */
  keep(run: string, outcomes: readonly TrialOutcome[], actor: Actor): Promise<number>;
  /** What became of the trials, by trial id, page by page. */
  outcomes(run: string, filter?: OutcomeFilter): Promise<RecomputedTrial[]>;
  /** How many verdicts the run changes, by what they were and would be. */
  flips(run: string): Promise<Flips>;
  /** Values of some metrics of up to 1000 results, as they lie; metrics without a value are left out. */
  values(results: readonly string[], metrics: readonly string[]): Promise<ValueOfResult[]>;
}

/** What the audit trail calls the act that led to a state. */
const acts: Readonly<Record<Recomputation['state'], string>> = {
  running: 'go-on',
  paused: 'pause',
  finished: 'finish',
  adopted: 'adopt',
  discarded: 'discard',
  failed: 'fail',
};

/** Outcomes written before others are heard again. */
const atOnce = 50;

const noted = [
  'trialRevision',
  'sessionRevision',
  'basis',
  'beforeId',
  'beforeVerdict',
  'resultId',
  'verdict',
  'code',
  'words',
] as const satisfies readonly (keyof RecomputedRow)[];

const insertRecomputed = rowsInto('recomputed', ['runId', 'trialId', ...noted], (query) =>
  query.onConflict((conflict) =>
    conflict
      .columns(['runId', 'trialId'])
      .doUpdateSet(({ ref }) => Object.fromEntries(noted.map((column) => [column, ref(`excluded.${column}`)]))),
  ),
);

/** Keeps outcomes of trials that are due: the candidates, and what was noted of each trial. */
async function keepOutcomes(scope: Scope, run: string, outcomes: readonly TrialOutcome[], actor: Actor): Promise<void> {
  const made = outcomes.flatMap(({ trial, made: one }) =>
    'code' in one ? [] : [{ trial, text: 'text' in one ? one.text : resultText(one.document, one.versions) }],
  );
  const results =
    made.length === 0 ? [] : await write(scope, actor, (writing) => appendResults(scope, writing, made, run));
  const byTrial = new Map(results.map((row) => [row.trialId, row]));
  const values: unknown[] = [];
  for (const { trial, trialRevision, sessionRevision, basis, before, made: one } of outcomes) {
    const result = byTrial.get(trial);
    values.push(run, trial, trialRevision, sessionRevision, basis, before?.result ?? null, before?.verdict ?? null);
    values.push(result?.id ?? null, result?.verdict ?? null);
    values.push('code' in one ? one.code : null, 'code' in one ? one.words : null);
  }
  await insertRecomputed(scope, values);
}

const endOf = ({ clock }: Scope, state: Recomputation['state']) =>
  state === 'adopted' || state === 'discarded' ? { endedAt: clock.now() } : {};

export function recomputationRepository(scope: Scope): RecomputationRepository {
  const table = recordTable(shape);
  return {
    add: ({ method }, actor) => {
      const startedAt = scope.clock.now();
      const run = { method, scope: { of: 'archive' }, state: 'running', startedAt, words: '' } as const;
      return addRecord(scope, table, { ...run, id: scope.ids.next(), revision: 1 }, actor);
    },
    change: (id, changes, actor, options) =>
      changeRecord(scope, table, id, { ...changes, ...endOf(scope, changes.state) }, actor, {
        ...options,
        action: `recomputation.${acts[changes.state]}`,
      }),
    get: (id) => readRecord(scope.db, shape, id),
    async list(filter = {}) {
      let query = scope.db.selectFrom('recomputations').selectAll().orderBy('startedAt', 'desc').orderBy('id');
      if (filter.state !== undefined) query = query.where('state', '=', filter.state);
      return (await query.execute()).map(shape.fromRow);
    },
    async counts(run) {
      const { trials } = await scope.db
        .selectFrom('trials')
        .select(({ fn }) => fn.countAll<number>().as('trials'))
        .where('recordingHash', 'is not', null)
        .where('forceSelection', 'is not', null)
        .executeTakeFirstOrThrow();
      const { all, done } = await scope.db
        .selectFrom('recomputed')
        .select(({ fn }) => [fn.countAll<number>().as('all'), fn.count<number>('resultId').as('done')])
        .where('runId', '=', run)
        .executeTakeFirstOrThrow();
      return { trials: Number(trials), done: Number(done), failed: Number(all) - Number(done) };
    },
    pending: (run, limit, after) => pendingTrials(scope.db, run, { limit, after }),
    bases: (trials) => judgingBases(scope.db, trials),
    keep: (run, outcomes, actor) =>
      inTransaction(scope, async (inner) => {
        const { db } = inner;
        const now = await readRecord(db, shape, run);
        if (now?.state !== 'running' || outcomes.length === 0) return 0;
        const trials = outcomes.map(({ trial }) => trial);
        const due = new Set((await pendingTrials(db, run, { trials, limit: trials.length })).map(({ trial }) => trial));
        const fresh = outcomes.filter(({ trial }) => due.delete(trial));
        for (let start = 0; start < fresh.length; start += atOnce) {
          if (start > 0) await turn();
          await keepOutcomes(inner, run, fresh.slice(start, start + atOnce), actor);
        }
        return fresh.length;
      }),
    outcomes: (run, filter = {}) => outcomesOf(scope.db, run, filter),
    flips: (run) => flipsOf(scope.db, run),
    values: (results, metrics) => valuesOfResults(scope.db, results, metrics),
  };
}
