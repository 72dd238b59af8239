import type { Migration } from './migration.ts';

/** What is written down of an athlete (remark, injury, target, position), and double readings of trials by people who see no verdict. */
export const athleteNotes: Migration = {
  number: 5,
  name: 'athlete-notes',
  statements: (engine) => tables(engine === 'postgres' ? 'text collate "C"' : 'text'),
};

function tables(text: string): string[] {
  return [
    `create table athlete_notes (
      id ${text} primary key not null,
      revision bigint not null,
      person_id ${text} not null references people (id),
      kind ${text} not null check (kind in ('remark', 'injury', 'target', 'position')),
      from_day ${text} not null,
      until_day ${text},
      "text" ${text} not null,
      limb ${text} check (limb in ('both', 'left', 'right')),
      test ${text},
      metric ${text},
      value double precision,
      unit ${text},
      active integer not null check (active in (0, 1)),
      check ((kind = 'injury') = (limb is not null)),
      check ((kind = 'target') = (value is not null)),
      check ((value is null) = (metric is null)),
      check ((value is null) = (unit is null))
    )`,
    'create index athlete_notes_by_person on athlete_notes (person_id, from_day, id)',
    'create index athlete_notes_by_kind on athlete_notes (kind, from_day, id)',
    `create table blind_studies (
      id ${text} primary key not null,
      revision bigint not null,
      title ${text} not null,
      trials ${text} not null,
      readers ${text} not null,
      created_at ${text} not null,
      closed integer not null check (closed in (0, 1))
    )`,
    `create table blind_readings (
      id ${text} primary key not null,
      revision bigint not null,
      study_id ${text} not null references blind_studies (id),
      trial_id ${text} not null references trials (id),
      reader integer not null,
      onset double precision,
      verdict ${text} not null check (verdict in ('counts', 'look-again', 'repeat')),
      read_at ${text} not null,
      unique (study_id, reader, trial_id)
    )`,
  ];
}
