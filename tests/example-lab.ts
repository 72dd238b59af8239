import { cpSync, existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { routes } from '@sthene/contract';
import { stationUnderTest } from '../apps/station/test/station-at.ts';

/** Where this run of the tests keeps the example; named by `tests/run-folder.ts`. */
const runFolder = process.env.STHENE_TEST_RUN;

/**
 * A data folder with the Fernwater example in it, for one test file alone. The example is built once in a run of the tests, by whoever
 * asks first, and copied for everybody.
 */
export async function exampleData(): Promise<string> {
  const mine = mkdtempSync(join(tmpdir(), 'sthene-example-'));
  cpSync(await built(), mine, { recursive: true });
  return mine;
}

async function built(): Promise<string> {
  const home = runFolder ?? mkdtempSync(join(tmpdir(), 'sthene-example-once-'));
  const done = join(home, 'example');
  try {
    mkdirSync(join(home, 'building'));
  } catch {
    const until = Date.now() + 290_000;
    while (!existsSync(done)) {
      if (Date.now() > until) throw new Error('another test file began to build the example and did not end');
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    return done;
  }
  try {
    const station = await stationUnderTest(join(home, 'making'));
    // Asked for twice at once, as by two windows: it is built once all the same.
    const made = await Promise.all(
      [0, 1].map(() => station.ask(routes.createLab, { params: { lab: 'example' }, body: {} })),
    );
    if (JSON.stringify(made[0]) !== JSON.stringify(made[1])) throw new Error('the example was built twice');
    await station.close();
    renameSync(join(home, 'making'), done);
    return done;
  } catch (error) {
    rmSync(join(home, 'building'), { recursive: true, force: true });
    throw error;
  }
}
