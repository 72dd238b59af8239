import type { EngineKind } from '../dialects/engine.ts';
import type { Migration } from './migration.ts';

/** Checks of rigs with known masses, and corrections that were adopted from them: both only grow. */
export const rigChecks: Migration = {
  number: 9,
  name: 'rig-checks',
  statements: (engine) => [
    ...tables(engine === 'postgres' ? 'text collate "C"' : 'text'),
    ...['rig_checks', 'rig_corrections'].flatMap((table) => guards(engine, table)),
  ],
};

function tables(text: string): string[] {
  return [
    `create table rig_checks (
      id ${text} primary key not null,
      rig_id ${text} not null references rigs (id),
      sequence bigint not null unique,
      at ${text} not null,
      "by" ${text} not null,
      role ${text},
      station ${text} not null,
      document ${text} not null,
      result ${text} not null,
      verdict ${text} not null check (verdict in ('passes', 'look', 'fails', 'incomplete')),
      note ${text} not null
    )`,
    'create index rig_checks_by_rig on rig_checks (rig_id, sequence)',
    `create table rig_corrections (
      id ${text} primary key not null,
      rig_id ${text} not null references rigs (id),
      check_id ${text} references rig_checks (id),
      sequence bigint not null unique,
      at ${text} not null,
      "by" ${text} not null,
      role ${text},
      station ${text} not null,
      plates ${text} not null,
      reason ${text} not null
    )`,
    'create index rig_corrections_by_rig on rig_corrections (rig_id, sequence)',
  ];
}

function guards(engine: EngineKind, table: string): string[] {
  if (engine === 'sqlite')
    return ['update', 'delete'].map(
      (act) => `create trigger ${table}_no_${act} before ${act} on ${table}
        begin select raise(abort, 'append-only'); end`,
    );
  return [
    `create trigger ${table}_no_change before update or delete on ${table}
      for each row execute function refuse_change()`,
    `create trigger ${table}_no_truncate before truncate on ${table}
      for each statement execute function refuse_change()`,
  ];
}
