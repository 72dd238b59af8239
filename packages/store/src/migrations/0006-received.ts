import type { EngineKind } from '../dialects/engine.ts';
import type { Migration } from './migration.ts';

/** Values of others without curves: what was brought in, the sessions it made, and every value as it came. */
export const received: Migration = {
  number: 6,
  name: 'received',
  statements: (engine) => [...tables(engine === 'postgres' ? 'text collate "C"' : 'text'), ...guards(engine)],
};

const appendOnly = ['received_sessions', 'received_values'];

function tables(text: string): string[] {
  return [
    `create table received_imports (
      id ${text} primary key not null,
      revision bigint not null,
      kind ${text} not null check (kind in ('table', 'exchange')),
      file_sha256 ${text} not null check (length(file_sha256) = 64),
      file_name ${text} not null,
      byte_count bigint not null,
      mapping ${text} not null,
      session_count bigint not null,
      value_count bigint not null,
      imported_at ${text} not null,
      taken_back integer not null check (taken_back in (0, 1))
    )`,
    'create index received_imports_by_file on received_imports (file_sha256)',
    `create table received_sessions (
      session_id ${text} primary key not null references sessions (id),
      import_id ${text} not null references received_imports (id),
      method_label ${text} not null check (length(method_label) > 0),
      time_known integer not null check (time_known in (0, 1))
    )`,
    'create index received_sessions_by_import on received_sessions (import_id)',
    `create table received_values (
      id ${text} primary key not null,
      import_id ${text} not null references received_imports (id),
      session_id ${text} not null references received_sessions (session_id),
      "row" bigint not null,
      position bigint,
      "of" ${text} not null check ("of" in ('trial', 'mean', 'best', 'unknown')),
      metric ${text} not null,
      value double precision,
      unit ${text} not null,
      reason ${text},
      given_value ${text} not null,
      given_unit ${text} not null,
      origin ${text},
      facts ${text} not null,
      check ((value is null) <> (reason is null))
    )`,
    'create index received_values_by_session on received_values (session_id, metric)',
    'create index received_values_by_import on received_values (import_id, id)',
    'create index received_values_by_origin on received_values (origin)',
  ];
}

function guards(engine: EngineKind): string[] {
  if (engine === 'sqlite')
    return appendOnly.flatMap((table) =>
      ['update', 'delete'].map(
        (act) => `create trigger ${table}_no_${act} before ${act} on ${table}
          begin select raise(abort, 'append-only'); end`,
      ),
    );
  return appendOnly.flatMap((table) => [
    `create trigger ${table}_no_change before update or delete on ${table}
      for each row execute function refuse_change()`,
    `create trigger ${table}_no_truncate before truncate on ${table}
      for each statement execute function refuse_change()`,
  ]);
}
