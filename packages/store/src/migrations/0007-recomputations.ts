import type { Migration } from './migration.ts';

/**
 * Runs that judge the archive under another method. A result of a run is a candidate until the run is adopted; `recomputed` says for
 * each trial what came of it, beside which result, and from which state of the trial.
 */
export const recomputations: Migration = {
  number: 7,
  name: 'recomputations',
  statements: (engine) => tables(engine === 'postgres' ? 'text collate "C"' : 'text'),
};

function tables(text: string): string[] {
  return [
    `create table recomputations (
      id ${text} primary key not null,
      revision bigint not null,
      method_hash ${text} not null references methods (sha256),
      scope ${text} not null,
      state ${text} not null check (state in ('running', 'paused', 'finished', 'adopted', 'discarded', 'failed')),
      started_at ${text} not null,
      ended_at ${text},
      words ${text} not null
    )`,
    'create index recomputations_by_state on recomputations (state, started_at)',
    `alter table results add column run_id ${text} references recomputations (id)`,
    // Holds what lists ask for, so that no list reads the documents, which are large and lie before the verdict in the row.
    'create index results_in_force on results (trial_id, sequence, run_id, verdict, method_hash, id)',
    `create table recomputed (
      run_id ${text} not null references recomputations (id),
      trial_id ${text} not null references trials (id),
      trial_revision bigint not null,
      session_revision bigint not null,
      basis bigint not null,
      before_id ${text} references results (id),
      before_verdict ${text},
      result_id ${text} references results (id),
      verdict ${text},
      code ${text},
      words ${text},
      primary key (run_id, trial_id),
      check ((result_id is null) = (code is not null)),
      check ((before_id is null) = (before_verdict is null)),
      check ((result_id is null) = (verdict is null))
    )`,
  ];
}
