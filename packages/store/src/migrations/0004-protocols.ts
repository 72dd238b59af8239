import type { EngineKind } from '../dialects/engine.ts';
import type { Migration } from './migration.ts';

/** Protocols of the lab: a name that stays, versions that only grow, and the version each session was run by. */
export const protocols: Migration = {
  number: 4,
  name: 'protocols',
  statements: (engine) => [...tables(engine === 'postgres' ? 'text collate "C"' : 'text'), ...guards(engine)],
};

function tables(text: string): string[] {
  return [
    `create table protocols (
      id ${text} primary key not null,
      revision bigint not null,
      name ${text} not null unique,
      test ${text} not null,
      archived integer not null check (archived in (0, 1))
    )`,
    `create table protocol_versions (
      sha256 ${text} primary key not null,
      protocol_id ${text} references protocols (id),
      version bigint not null,
      name ${text} not null,
      test ${text} not null,
      document ${text} not null,
      "by" ${text} not null,
      added_at ${text} not null,
      unique (protocol_id, version)
    )`,
    `alter table sessions add column protocol_hash ${text} references protocol_versions (sha256)`,
    'create index sessions_by_protocol on sessions (protocol_hash, started_at)',
  ];
}

function guards(engine: EngineKind): string[] {
  if (engine === 'sqlite')
    return ['update', 'delete'].map(
      (act) => `create trigger protocol_versions_no_${act} before ${act} on protocol_versions
        begin select raise(abort, 'append-only'); end`,
    );
  return [
    `create trigger protocol_versions_no_change before update or delete on protocol_versions
      for each row execute function refuse_change()`,
    `create trigger protocol_versions_no_truncate before truncate on protocol_versions
      for each statement execute function refuse_change()`,
  ];
}
