import type { EngineKind } from '../dialects/engine.ts';
import type { Migration } from './migration.ts';

/** Tables that only grow: what once stood in them is never changed and never removed. */
const appendOnly = ['audit', 'results', 'metric_values', 'methods', 'decisions', 'revisions'];

/** Everything the first release keeps. Frozen: later changes are later migrations. */
export const firstSchema: Migration = {
  number: 1,
  name: 'first-schema',
  statements: (engine) => [...tables(engine), ...guards(engine)],
};

function tables(engine: EngineKind): string[] {
  // Byte order on both engines; SQLite's default collation already is.
  const text = engine === 'postgres' ? 'text collate "C"' : 'text';
  return [
    `create table people (
      id ${text} primary key not null,
      revision bigint not null,
      code ${text} not null unique,
      given_name ${text} not null,
      family_name ${text} not null,
      birth_date ${text},
      sex ${text},
      notes ${text} not null,
      active integer not null check (active in (0, 1)),
      search_key ${text} not null
    )`,
    `create table squads (
      id ${text} primary key not null,
      revision bigint not null,
      name ${text} not null unique,
      notes ${text} not null,
      active integer not null check (active in (0, 1))
    )`,
    `create table squad_members (
      squad_id ${text} not null references squads (id),
      person_id ${text} not null references people (id),
      primary key (squad_id, person_id)
    )`,
    'create index squad_members_by_person on squad_members (person_id)',
    `create table sessions (
      id ${text} primary key not null,
      revision bigint not null,
      person_id ${text} not null references people (id),
      protocol_id ${text} not null,
      protocol_version integer not null,
      started_at ${text} not null,
      ended_at ${text},
      rig ${text},
      body_weight_value double precision,
      body_weight_from ${text},
      body_weight_worn ${text},
      gravity double precision not null,
      setup ${text} not null,
      notes ${text} not null,
      results_only integer not null check (results_only in (0, 1)),
      check ((body_weight_value is null) = (body_weight_from is null))
    )`,
    'create index sessions_by_start on sessions (started_at, id)',
    'create index sessions_by_person on sessions (person_id, started_at)',
    `create table recordings (
      sha256 ${text} primary key not null check (length(sha256) = 64),
      file_name ${text} not null,
      byte_count bigint not null,
      media_type ${text} not null,
      format_id ${text} not null,
      sample_rate double precision not null,
      sample_count bigint not null,
      imported_at ${text} not null,
      native_sha256 ${text}
    )`,
    `create table trials (
      id ${text} primary key not null,
      revision bigint not null,
      session_id ${text} not null references sessions (id),
      position integer not null,
      effort ${text} not null check (effort in ('maximal', 'submaximal', 'familiarisation')),
      recording_hash ${text} references recordings (sha256),
      recording_label ${text},
      reading ${text},
      force_selection ${text},
      span_start double precision,
      span_end double precision,
      cue double precision,
      unique (session_id, position),
      check ((span_start is null) = (span_end is null))
    )`,
    'create index trials_by_recording on trials (recording_hash)',
    `create table methods (
      sha256 ${text} primary key not null check (length(sha256) = 64),
      name ${text} not null,
      version integer not null,
      document ${text} not null,
      added_at ${text} not null,
      unique (name, version, sha256)
    )`,
    `create table audit (
      sequence bigint primary key not null,
      at ${text} not null,
      "by" ${text} not null,
      role ${text},
      station ${text} not null,
      action ${text} not null,
      subject_kind ${text} not null,
      subject_id ${text} not null,
      details ${text} not null,
      previous_hash ${text} not null unique,
      hash ${text} not null unique
    )`,
    'create index audit_by_subject on audit (subject_kind, subject_id, sequence)',
    `create table results (
      id ${text} primary key not null,
      sequence bigint not null unique references audit (sequence),
      trial_id ${text} not null references trials (id),
      method_hash ${text} not null references methods (sha256),
      recording_hash ${text} references recordings (sha256),
      application ${text} not null,
      versions ${text} not null,
      document ${text} not null,
      verdict ${text} not null check (verdict in ('counts', 'look-again', 'repeat')),
      computed_at ${text} not null
    )`,
    'create index results_by_trial on results (trial_id, method_hash, sequence)',
    `create table metric_values (
      result_id ${text} not null references results (id),
      metric ${text} not null,
      value double precision,
      reason ${text},
      unit ${text},
      primary key (result_id, metric),
      check ((value is null) <> (reason is null))
    )`,
    'create index metric_values_by_metric on metric_values (metric, result_id)',
    `create table decisions (
      id ${text} primary key not null,
      sequence bigint not null unique references audit (sequence),
      trial_id ${text} not null references trials (id),
      kind ${text} not null,
      payload ${text} not null,
      reason ${text} not null,
      reverts ${text} references decisions (id),
      "by" ${text} not null,
      role ${text},
      station ${text} not null,
      at ${text} not null
    )`,
    'create index decisions_by_trial on decisions (trial_id, sequence)',
    `create table import_templates (
      id ${text} primary key not null,
      revision bigint not null,
      name ${text} not null unique,
      header_signature ${text} not null,
      mapping ${text} not null,
      last_used_at ${text}
    )`,
    'create index import_templates_by_header on import_templates (header_signature)',
    `create table settings (
      key ${text} primary key not null,
      revision bigint not null,
      document ${text} not null
    )`,
    `create table revisions (
      subject_kind ${text} not null,
      subject_id ${text} not null,
      number bigint not null,
      document ${text} not null,
      salt ${text} not null,
      reason ${text} not null,
      "by" ${text} not null,
      role ${text},
      station ${text} not null,
      at ${text} not null,
      primary key (subject_kind, subject_id, number)
    )`,
  ];
}

function guards(engine: EngineKind): string[] {
  if (engine === 'sqlite') {
    return appendOnly.flatMap((table) =>
      ['update', 'delete'].map(
        (act) => `create trigger ${table}_no_${act} before ${act} on ${table}
          begin select raise(abort, 'append-only'); end`,
      ),
    );
  }
  return [
    `create function refuse_change() returns trigger language plpgsql as $$
      begin raise exception 'append-only' using errcode = 'restrict_violation'; end $$`,
    ...appendOnly.flatMap((table) => [
      `create trigger ${table}_no_change before update or delete on ${table}
        for each row execute function refuse_change()`,
      `create trigger ${table}_no_truncate before truncate on ${table}
        for each statement execute function refuse_change()`,
    ]),
  ];
}
