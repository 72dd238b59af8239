import { migrations } from '../src/migrations/index.ts';
import type { Migration } from '../src/migrations/migration.ts';

/** An invented later step, for tests of the upgrade. */
export const laterMigration: Migration = {
  number: migrations.length + 1,
  name: 'seats',
  statements: () => [
    'create table boats (id text primary key not null)',
    'insert into boats select id from people',
    'alter table people add column seat integer',
    'update people set seat = 4',
  ],
};
