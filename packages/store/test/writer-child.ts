// A station in a process of its own: adds people one after the other and confirms each on stdout, until it is killed.

import type { EngineOptions } from '../src/dialects/engine.ts';
import { folderFileStore, openStore } from '../src/index.ts';
import { coach, countingIds, steppingClock } from './engines.ts';

const [engine, folder, name, count] = process.argv.slice(2) as [string, string, string, string];
const store = await openStore({
  engine: JSON.parse(engine) as EngineOptions,
  files: folderFileStore({ folder, ids: countingIds(`file-${name}`) }),
  clock: steppingClock(),
  ids: countingIds(name),
  application: 'sthene 0.1.0-test',
});
process.stdout.write('ready\n');
for (let n = 0; n < Number(count); n += 1) {
  const code = `${name}-${n}`;
  await store.transaction(async (inside) => {
    const { id } = await inside.people.add({ code, givenName: 'Invented', familyName: code }, coach);
    await inside.people.change(id, { notes: `second write of ${code}` }, coach);
  });
  process.stdout.write(`${code}\n`);
}
await store.close();
