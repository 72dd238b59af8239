import type { Migration } from './migration.ts';

/** What a live day keeps: sources, rigs, days with their running order, gates of people, devices, captures. */
export const live: Migration = {
  number: 2,
  name: 'live',
  statements: (engine) => tables(engine === 'postgres' ? 'text collate "C"' : 'text'),
};

function tables(text: string): string[] {
  return [
    `create table sources (
      id ${text} primary key not null,
      revision bigint not null,
      name ${text} not null unique,
      description ${text} not null,
      active integer not null check (active in (0, 1))
    )`,
    `create table rigs (
      id ${text} primary key not null,
      revision bigint not null,
      name ${text} not null unique,
      letter ${text} not null,
      shape ${text} not null,
      sources ${text} not null,
      notes ${text} not null,
      active integer not null check (active in (0, 1))
    )`,
    `create table days (
      id ${text} primary key not null,
      revision bigint not null,
      date ${text} not null,
      title ${text} not null,
      status ${text} not null check (status in ('planned', 'open', 'closed')),
      plans ${text} not null,
      rigs ${text} not null,
      settings ${text} not null,
      notes ${text} not null,
      opened_at ${text},
      closed_at ${text}
    )`,
    'create index days_by_date on days (date, id)',
    `create table day_entries (
      id ${text} primary key not null,
      revision bigint not null,
      day_id ${text} not null references days (id),
      person_id ${text} not null references people (id),
      position double precision not null,
      test ${text} not null,
      walk_in integer not null check (walk_in in (0, 1)),
      state ${text} not null check (state in ('planned', 'warming-up', 'left', 'done', 'removed')),
      fixed_rig ${text} references rigs (id),
      readiness ${text},
      setup ${text} not null,
      remaining ${text},
      session_id ${text} references sessions (id),
      notes ${text} not null
    )`,
    'create index day_entries_by_day on day_entries (day_id, position, id)',
    'create index day_entries_by_person on day_entries (person_id, id)',
    `create table gates (
      id ${text} primary key not null,
      revision bigint not null,
      person_id ${text} not null references people (id),
      kind ${text} not null check (kind in ('clearance', 'submaximal-only', 'screening', 'consent', 'pain-stop')),
      granted integer not null check (granted in (0, 1)),
      limb ${text} not null check (limb in ('both', 'left', 'right')),
      test ${text},
      from_day ${text} not null,
      until_day ${text},
      note ${text} not null,
      released_by ${text},
      released_at ${text},
      release_reason ${text},
      check ((released_by is null) = (released_at is null))
    )`,
    'create index gates_by_person on gates (person_id, id)',
    `create table devices (
      id ${text} primary key not null,
      revision bigint not null,
      name ${text} not null,
      role ${text} not null check (role in ('operator', 'wall', 'viewer')),
      last_seen_at ${text} not null
    )`,
    `create table captures (
      id ${text} primary key not null,
      revision bigint not null,
      rig_id ${text} not null references rigs (id),
      day_id ${text} references days (id),
      state ${text} not null check (state in ('running', 'closed', 'recovered', 'damaged')),
      started_at ${text} not null,
      ended_at ${text},
      journals ${text} not null,
      samples bigint not null,
      missing bigint not null,
      words ${text} not null
    )`,
    'create index captures_by_start on captures (started_at, id)',
    `create table trial_origins (
      id ${text} primary key not null,
      revision bigint not null,
      trial_id ${text} not null unique references trials (id),
      capture_id ${text} not null references captures (id),
      entry_id ${text} references day_entries (id),
      span_start double precision not null,
      span_end double precision not null,
      ended_at ${text} not null,
      facts ${text} not null,
      unique (capture_id, span_start)
    )`,
    'create index trial_origins_by_entry on trial_origins (entry_id, ended_at)',
  ];
}
