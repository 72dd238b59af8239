import type { Migration } from './migration.ts';

/** Films of efforts. The file lies among the recordings under its hash; a removed one leaves its row. */
export const videos: Migration = {
  number: 3,
  name: 'videos',
  statements: (engine) => tables(engine === 'postgres' ? 'text collate "C"' : 'text'),
};

function tables(text: string): string[] {
  return [
    `create table videos (
      id ${text} primary key not null,
      revision bigint not null,
      rig_id ${text} not null references rigs (id),
      person_id ${text} not null references people (id),
      entry_id ${text} references day_entries (id),
      trial_id ${text} references trials (id),
      device ${text} not null,
      state ${text} not null check (state in ('receiving', 'stored', 'dropped', 'unreadable')),
      filmed_at ${text} not null,
      media_type ${text} not null,
      sha256 ${text},
      byte_count bigint not null,
      facts ${text} not null,
      nudge double precision not null,
      dropped_at ${text},
      check ((state = 'dropped') = (dropped_at is not null))
    )`,
    'create index videos_by_trial on videos (trial_id, id)',
    'create index videos_by_state on videos (state, filmed_at, id)',
    'create index videos_by_file on videos (sha256)',
  ];
}
