import type { EngineKind } from '../dialects/engine.ts';
import type { Migration } from './migration.ts';

/** What was said of an athlete on a page that was handed out, so that one can tell which of them would now read differently. */
export const handedOut: Migration = {
  number: 8,
  name: 'handed-out',
  statements: (engine) => [...tables(engine === 'postgres' ? 'text collate "C"' : 'text'), ...guards(engine)],
};

function tables(text: string): string[] {
  return [
    `create table handed_out (
      id ${text} primary key not null,
      at ${text} not null,
      kind ${text} not null check (kind in ('athlete', 'squad')),
      person_id ${text} not null references people (id),
      session_id ${text} not null references sessions (id),
      test ${text} not null,
      metric ${text} not null,
      reference ${text} not null,
      word ${text},
      value double precision not null,
      unit ${text} not null
    )`,
    'create index handed_out_by_session on handed_out (session_id, metric, kind, reference)',
  ];
}

function guards(engine: EngineKind): string[] {
  if (engine === 'sqlite')
    return ['update', 'delete'].map(
      (act) => `create trigger handed_out_no_${act} before ${act} on handed_out
        begin select raise(abort, 'append-only'); end`,
    );
  return [
    `create trigger handed_out_no_change before update or delete on handed_out
      for each row execute function refuse_change()`,
    `create trigger handed_out_no_truncate before truncate on handed_out
      for each statement execute function refuse_change()`,
  ];
}
