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
import type { Recording } from '@sthene/core';
import { bytesOf, formatOf } from '@sthene/formats';
import type { Store } from '@sthene/store';
import { afterEach, describe, expect, it } from 'vitest';
import { startStation } from '../../src/index.ts';
import type { HeadlessOptions } from '../../src/live/headless.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { expectSameAgain, withStore } from './stored.ts';
import { bridgeCounts, bridgeDescription, lineDescription, wiredPlates } from './wired-plates.ts';

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

/** Stored recordings of live trials with the peak force that was found in each. */
async function recordingsOf(store: Store): Promise<{ recording: Recording; peak: number }[]> {
  const found = [];
  for (const { session } of (await store.sessions.list({ limit: 50 })).items)
    for (const trial of await store.trials.ofSession(session.id)) {
      const bytes = trial.recording && (await store.recordings.bytes(trial.recording));
      if (!bytes) continue;
      const read = await formatOf('parquet')?.read(bytesOf(new Uint8Array(bytes), 'trial.parquet'), {});
      if (read?.ok !== true || read.recordings[0] === undefined) throw new Error('the recording cannot be read');
      const peak = (await store.results.current(trial.id))?.document.metrics.peak_force;
      const { recording } = read.recordings[0];
      found.push({ recording, peak: peak !== undefined && 'value' in peak ? peak.value : Number.NaN });
    }
  return found;
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

  it('over TCP from eight bridges: forces made by matrices, signals kept beside them', { timeout: 60_000 }, async () => {
    let socket: Socket | undefined;
    const server: Server = createServer((one) => {
      socket = one;
      one.on('error', () => {});
    });
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    ends.push(() => void server.close());
    const { port } = server.address() as { port: number };
    /** What went over the wire, and the forces behind it. */
    const sent: { readonly counts: readonly number[]; readonly forces: readonly [number, number] }[] = [];
    const plates = wiredPlates(
      (bytes) => void socket?.write(bytes),
      15,
      'fernwater-three',
      (left, right) => {
        const counts = bridgeCounts(left, right);
        sent.push({ counts, forces: [left, right] });
        return counts;
      },
    );
    const description = bridgeDescription('Bridge plates', { kind: 'tcp', mode: 'connect', host: '127.0.0.1', port });
    const [station, viewer] = await headless({ sources: [description], people });
    viewer.onMessage = (message) => plates.see(message);
    await plates.start();
    ends.push(() => plates.stop());
    await viewer.until(() => trialsSeen(viewer) >= 3, 50);
    expect(viewer.of('verdict').map(({ verdict }) => verdict.person.code)).toEqual(['FW01', 'FW02', 'OC01']);
    await expectSameAgain(station.folder, 3);

    const [kept] = await withStore(station.folder, recordingsOf);
    if (kept === undefined) throw new Error('nothing was kept');
    const { recording, peak } = kept;
    const made = description.calibration!.flatMap(({ channels }) => channels.map(({ name }) => name));
    const bridges = description.channels.map(({ name }) => name);
    // Forces first, as they are analysed; behind them all others in the order of the stream.
    expect(recording.channels.map(({ name }) => name)).toEqual([
      'Fz left',
      'Fz right',
      ...bridges,
      'My left',
      'My right',
    ]);
    const column = (name: string) => recording.channels.find((one) => one.name === name)!.raw;
    const signals = bridges.map(column);
    const rowAt = (n: number) => signals.map((raw) => raw[n]);
    const same = (n: number, row: readonly number[] | undefined) =>
      row !== undefined && rowAt(n).every((count, c) => count === row[c]);
    // Signals stand as they were sent, sample for sample.
    const from = sent.findIndex((_, k) => [0, 1, 2, 3, 4, 5, 6, 7].every((n) => same(n, sent[k + n]?.counts)));
    expect(from).toBeGreaterThanOrEqual(0);
    for (let n = 0; n < recording.sampleCount; n++) expect(same(n, sent[from + n]?.counts), `sample ${n}`).toBe(true);
    // Each made channel is its row of the certificate times the signals, multiplied out here once more.
    description.calibration!.forEach(({ matrix, signals: of }) => {
      matrix.forEach((row, r) => {
        const name = made[r + (of[0] === 'bridge 1' ? 0 : 2)]!;
        for (let n = 0; n < recording.sampleCount; n += 97) {
          const product = row.reduce((sum, factor, c) => {
            const { scale, offset } = description.channels.find((one) => one.name === of[c])!;
            return sum + factor * scale * (column(of[c]!)[n]! - offset);
          }, 0);
          expect(Math.abs(column(name)[n]! - product), `${name} ${n}`).toBeLessThan(1e-9);
        }
      });
    });
    // And the forces are those that stood on the bridges: a count is 0.25 N, so four rounded ones are within 0.6 N.
    let highest = 0;
    for (let n = 0; n < recording.sampleCount; n++) {
      const [left, right] = sent[from + n]!.forces;
      expect(Math.abs(column('Fz left')[n]! - left)).toBeLessThan(0.6);
      expect(Math.abs(column('Fz right')[n]! - right)).toBeLessThan(0.6);
      highest = Math.max(highest, left + right);
    }
    expect(Math.abs(peak - highest)).toBeLessThan(5);
    expect(JSON.parse(recording.facts.calibration ?? '').map(({ name }: { name: string }) => name)).toEqual([
      'Fz left',
      'Fz right',
      'My left',
      'My right',
    ]);
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
