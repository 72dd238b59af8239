// Opens a store whose next migration dies before its n-th statement, as a power cut would.

import type { EngineOptions } from '../src/dialects/engine.ts';
import { folderFileStore } from '../src/index.ts';
import { migrations } from '../src/migrations/index.ts';
import { openStoreWith } from '../src/store.ts';
import { countingIds, steppingClock } from './engines.ts';
import { laterMigration } from './later-migration.ts';

const [engine, folder, dieAt] = process.argv.slice(2) as [string, string, string];
const dying = {
  ...laterMigration,
  statements: (kind: EngineOptions['kind']) => ({
    // Read one by one by the migrator, so the earlier statements have been run when this dies.
    *entries(): IterableIterator<[number, string]> {
      for (const [index, statement] of laterMigration.statements(kind).entries()) {
        if (index === Number(dieAt)) process.kill(process.pid, 'SIGKILL');
        yield [index, statement];
      }
      if (Number(dieAt) === laterMigration.statements(kind).length) process.kill(process.pid, 'SIGKILL');
    },
  }),
};
await openStoreWith(
  {
    engine: JSON.parse(engine) as EngineOptions,
    files: folderFileStore({ folder, ids: countingIds() }),
    clock: steppingClock(),
    ids: countingIds(),
    application: 'sthene 0.2.0-test',
    beforeMigration: async () => {},
  },
  [...migrations, dying as never],
);
