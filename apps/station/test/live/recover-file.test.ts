import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { recordingOf, simulatePull } from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { analysedAgain, withStore } from './analysed-again.ts';
import { type StationCore, stationCore } from './station-core.ts';
import { twoPlates } from './wired-plates.ts';

let folder = '';
let core: StationCore | undefined;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sthene-cut-file-'));
  mkdirSync(join(folder, 'in'));
  writeFileSync(join(folder, 'people.txt'), 'Wren,Alder,FW01\nHeron,Birch,FW02\n');
});
afterEach(async () => {
  await core?.close();
  core = undefined;
  rmSync(folder, { recursive: true, force: true });
});

const start = () =>
  stationCore(join(folder, 'data'), {
    handsFree: true,
    people: join(folder, 'people.txt'),
    plan: { efforts: [{ kind: 'maximal' }], rest: { minimum: 20, maximum: 600 } },
    sources: [
      {
        schema: 'sthene.source/1',
        name: 'Watched folder',
        transport: { kind: 'folder', path: join(folder, 'in'), pattern: '*.csv' },
        channels: twoPlates(),
        rate: 1000,
      },
    ],
  });

async function drop(name: string, seed: number): Promise<void> {
  const text = formatOf('text');
  if (text?.write === undefined) throw new Error('the text format is not listed');
  writeFileSync(join(folder, 'in', name), await text.write(recordingOf(simulatePull({}, seed))));
}

/** A station that dies when a file has been read and is not kept yet, its journal as far as `journalled` of its bytes. */
async function dieOn(name: string, journalled: number): Promise<void> {
  const dying = await start();
  let came = false;
  dying.live.efforts.fileEnded = () => {
    came = true;
  };
  await drop(name, 3);
  await dying.until(() => came, 30);
  const rig = [...dying.live.rigs.values()][0];
  await rig?.runtime.journal.settled();
  await dying.live.enqueue('nothing', async () => {});
  // Gone without a word: neither rig nor journal is closed.
  dying.live.rigs.clear();
  await dying.close();
  const journals = join(folder, 'data', 'lab', 'journal');
  const newest =
    readdirSync(journals)
      .filter((name) => name.endsWith('.journal'))
      .sort()
      .at(-1) ?? '';
  const { size } = statSync(join(journals, newest));
  truncateSync(join(journals, newest), Math.floor(size * journalled));
}

describe('a file of a watched folder that a kill cut off', () => {
  it.each([
    ['is kept from the journal that holds it whole', 1, 'from the journal'],
    ['is kept from its folder when the journal ends before it', 0.6, 'from its folder'],
  ])('%s', { timeout: 240_000 }, async (_, journalled, words) => {
    await dieOn('wren-1.csv', journalled);
    core = await start();
    const said = core.live.alerts.list.find(({ code }) => code === 'capture-recovered')?.words;
    expect(said).toContain('"wren-1.csv"');
    expect(said).toContain(words);
    // The next file is the next person's.
    await drop('heron-1.csv', 4);
    await core.until(() => core?.of('verdict').length === 1, 60);
    expect(core.of('verdict')[0]?.verdict.person.code).toBe('FW02');
    await core.close();
    await withStore(join(folder, 'data'), async (store) => {
      const { items } = await store.sessions.list({ limit: 10 });
      expect(items.map(({ person }) => person.code).sort()).toEqual(['FW01', 'FW02']);
      const checked = await analysedAgain(store);
      expect(checked).toHaveLength(2);
      for (const { stored, again } of checked) expect(again).toEqual(stored);
    });
  });

  it('is named when it is lost', { timeout: 240_000 }, async () => {
    await dieOn('wren-1.csv', 0.6);
    rmSync(join(folder, 'in', 'wren-1.csv'));
    core = await start();
    const said = core.live.alerts.list.find(({ code }) => code === 'capture-recovered')?.words;
    expect(said).toContain('"wren-1.csv" was cut off and cannot be read again');
  });
});
