import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  copyFileSync,
  createWriteStream,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createServer, type Server, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { routes } from '@sthene/contract';
import { afterEach, describe, expect, it } from 'vitest';
import { startStation } from '../../src/index.ts';
import type { HeadlessOptions } from '../../src/live/headless.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { expectSameAgain } from './stored.ts';
import { lineDescription, wiredPlates } from './wired-plates.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

const people = 'Wren, Alder, FW01, 1999-04-01\n# the second boat\nHeron, Birch, FW02\nOtter, Cole\n';
const pulls = (count: number) => ({
  efforts: Array.from({ length: count }, () => ({ kind: 'maximal' as const })),
  rest: { minimum: 20, maximum: 600 },
});

/** A station that runs a day by itself, and somebody who looks on. */
async function headless(
  options: Omit<HeadlessOptions, 'handsFree' | 'plan'>,
  efforts = 1,
): Promise<[StationUnderTest, LiveClient]> {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-headless-'));
  ends.push(() => rmSync(folder, { recursive: true, force: true }));
  let given = options;
  if (options.people !== undefined) {
    const file = join(folder, 'people.txt');
    writeFileSync(file, options.people);
    given = { ...options, people: file };
  }
  const station = await stationUnderTest(join(folder, 'data'), { ...given, handsFree: true, plan: pulls(efforts) });
  ends.push(() => station.close());
  const viewer = await LiveClient.join(station.address, 'viewer', 'phone-1');
  ends.push(() => viewer.close());
  return [station, viewer];
}

const trialsSeen = (viewer: LiveClient) => new Set(viewer.of('verdict').map(({ verdict }) => verdict.trial)).size;

describe('a day by itself over a wire', () => {
  it('over TCP: people in the order of a file, each effort stored as analysed', { timeout: 240_000 }, async () => {
    let socket: Socket | undefined;
    const server: Server = createServer((one) => {
      socket = one;
      one.on('error', () => {});
    });
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    ends.push(() => void server.close());
    const { port } = server.address() as { port: number };
    const plates = wiredPlates((bytes) => void socket?.write(bytes));
    const description = lineDescription('TCP plates', { kind: 'tcp', mode: 'connect', host: '127.0.0.1', port });
    const [station, viewer] = await headless({ sources: [description], people });
    viewer.onMessage = (message) => plates.see(message);
    await plates.start();
    ends.push(() => plates.stop());
    await viewer.until(() => trialsSeen(viewer) >= 3, 50);
    expect(viewer.of('verdict').map(({ verdict }) => [verdict.person.name, verdict.person.code])).toEqual([
      ['Wren Alder', 'FW01'],
      ['Heron Birch', 'FW02'],
      ['Otter Cole', 'OC01'],
    ]);
    await expectSameAgain(station.folder, 3);
    const page = await station.ask(routes.sessions, { params: { lab: 'lab' } });
    expect(page.rows.map(({ trials }) => trials)).toEqual([1, 1, 1]);
  });

  const socat = spawnSync('socat', ['-V']).status === 0;
  const reason = socat ? '' : ' (skipped: socat, which makes a pair of serial ports, is not installed)';
  it.skipIf(!socat)(`over a serial port, walk-ins known by weight${reason}`, { timeout: 240_000 }, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'sthene-pty-'));
    ends.push(() => rmSync(folder, { recursive: true, force: true }));
    const [near, far] = [join(folder, 'station'), join(folder, 'device')];
    const pair: ChildProcess = spawn('socat', [`pty,raw,echo=0,link=${near}`, `pty,raw,echo=0,link=${far}`], {
      stdio: 'ignore',
    });
    ends.push(() => void pair.kill());
    for (let i = 0; i < 200 && !(existsSync(near) && existsSync(far)); i++) await wait(10);
    const out = createWriteStream(far, { flags: 'r+' });
    out.on('error', () => {});
    ends.push(() => void out.destroy());
    const plates = wiredPlates((bytes) => void out.write(bytes), 10);
    const description = lineDescription('Serial plates', { kind: 'serial', path: near, baudRate: 921_600 });
    const [station, viewer] = await headless({ sources: [description] }, 2);
    viewer.onMessage = (message) => plates.see(message);
    await plates.start();
    ends.push(() => plates.stop());
    await viewer.until(() => trialsSeen(viewer) >= 4, 50);
    const seen = new Map(viewer.of('verdict').map(({ verdict }) => [verdict.trial, verdict.person.name]));
    // The first of them comes back, and is known again.
    expect([...seen.values()].slice(0, 4)).toEqual(['Walk-in 1', 'Walk-in 2', 'Walk-in 3', 'Walk-in 1']);
    const page = await station.ask(routes.sessions, { params: { lab: 'lab' } });
    expect(page.total).toBe(3);
    await expectSameAgain(station.folder, 4);
  });

  const recordings = resolve(import.meta.dirname, '../../../../../shared/data/two-plate-jumps');
  const there = existsSync(recordings);
  it.skipIf(!there)(
    `through a watched folder, recordings of others${there ? '' : ' (skipped: ../shared/data is not here)'}`,
    { timeout: 240_000 },
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'sthene-watched-'));
      ends.push(() => rmSync(folder, { recursive: true, force: true }));
      mkdirSync(join(folder, 'in'));
      const [station, viewer] = await headless({
        people,
        sources: [
          {
            schema: 'sthene.source/1',
            name: 'Watched folder',
            transport: { kind: 'folder', path: join(folder, 'in'), pattern: '*.csv' },
            // Right and left as SOURCE.md beside the recordings says.
            channels: [
              { name: 'ground_force1_vy', plate: '1', side: 'right', axis: 'z', unit: 'N', scale: 1, offset: 0 },
              { name: 'ground_force2_vy', plate: '2', side: 'left', axis: 'z', unit: 'N', scale: 1, offset: 0 },
            ],
            rate: 1000,
          },
        ],
      });
      const files = readdirSync(recordings).filter((name) => name.endsWith('.csv'));
      expect(files.length).toBeGreaterThanOrEqual(3);
      for (const [i, name] of files.slice(0, 3).entries()) {
        copyFileSync(join(recordings, name), join(folder, 'in', name));
        await viewer.until(() => trialsSeen(viewer) > i, 15);
      }
      expect(viewer.of('verdict').map(({ verdict }) => verdict.person.code)).toEqual(['FW01', 'FW02', 'OC01']);
      const checked = await expectSameAgain(station.folder, 3);
      // Quiet stance of the three people, N, as others measured it (SOURCE.md): 784.6, 580.1, 757.8.
      expect(checked.map(({ samples }) => samples).every((samples) => samples > 5000)).toBe(true);
    },
  );

  it('says what is wrong with a description and starts nothing', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'sthene-headless-'));
    ends.push(() => rmSync(folder, { recursive: true, force: true }));
    const file = join(folder, 'plates.json');
    writeFileSync(file, '{"schema":"sthene.source/1","name":"x"}');
    const starting = startStation({
      port: 0,
      data: join(folder, 'data'),
      webFolder: join(folder, 'no-web'),
      headless: { sources: [file], handsFree: true },
    });
    await expect(starting).rejects.toMatchObject({ code: 'source-not-an-object', next: expect.any(String) });
  });
});
