import { appendFileSync, mkdtempSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Recording, recordingOf, simulatePull, type UtcInstant } from '@sthene/core';
import { parquetFormat, textFormat } from '@sthene/formats';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import type { Packet } from '../../src/packets/packet.ts';
import { createSource } from '../../src/sources/create-source.ts';
import type { SourceDescription, Transport } from '../../src/sources/description.ts';
import type { Source } from '../../src/sources/source.ts';
import { fitsPattern } from '../../src/sources/transports/folder/name-pattern.ts';
import { collector, machineClock, pause } from './collect.ts';
import { of } from './twin-bench.ts';

const folder = mkdtempSync(join(tmpdir(), 'sthene-files-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let source: Source | undefined;
afterEach(async () => {
  await source?.stop();
  source = undefined;
});

const described = (transport: Transport, more: Partial<SourceDescription> = {}): SourceDescription => ({
  schema: 'sthene.source/1',
  name: 'Files',
  transport,
  channels: [],
  rate: 1000,
  ...more,
});
const make = (description: SourceDescription) => createSource(description, { id: 'rig', clock: machineClock });
const pull = (seed: number, fault = 'none'): Recording =>
  recordingOf(simulatePull({ hold: 1, fault }, seed), '2026-03-02T09:00:00Z' as UtcInstant);

/** Values of a channel by sample, and whether samples and gaps cover the grid. */
function values(packets: readonly Packet[], channel: number): number[] {
  const out: number[] = [];
  for (const packet of packets) {
    if (packet.kind === 'gap') {
      expect(packet.first).toBe(out.length);
      for (let i = 0; i < packet.count; i++) out.push(Number.NaN);
    } else if (packet.kind === 'samples') {
      expect(packet.first).toBe(out.length);
      out.push(...packet.values.subarray(channel * packet.count, (channel + 1) * packet.count));
    }
  }
  return out;
}

// promises in real time: a busy machine may need another try, never a longer one
describe('a watched folder', { retry: 2 }, () => {
  it('reads each new file whole, only when it is complete, and one that is none hinders nobody', async () => {
    const path = mkdtempSync(join(folder, 'in-'));
    writeFileSync(join(path, 'earlier.csv'), await textFormat.write!(pull(9)));
    const got = collector();
    source = make(described({ kind: 'folder', path, pattern: '*.csv' }));
    await source.start(got.emit);
    const first = pull(1);
    const bytes = Buffer.from(await textFormat.write!(first));
    // Written in pieces with pauses, as a slow program does.
    const file = join(path, 'first.csv');
    writeFileSync(file, '');
    for (let part = 0; part < 6; part++) {
      appendFileSync(
        file,
        bytes.subarray(Math.floor((part * bytes.length) / 6), Math.floor(((part + 1) * bytes.length) / 6)),
      );
      await pause(120);
    }
    const complete = performance.now();
    await got.until('the file', () => of(got.packets, 'end').length === 1);
    expect(performance.now() - complete).toBeLessThan(1000);
    expect(values(got.packets, 0)).toEqual([...first.channels[0]!.raw]);
    expect(of(got.packets, 'header')[0]).toMatchObject({
      source: 'rig',
      device: 'first.csv',
      promisedRate: 1000,
      channels: [
        { side: 'left', axis: 'z', unit: 'N' },
        { side: 'right', axis: 'z', unit: 'N' },
      ],
    });
    writeFileSync(join(path, 'broken.csv'), 'neither numbers\nnor a head\n');
    writeFileSync(join(path, 'other.txt'), bytes);
    writeFileSync(join(path, 'copy.csv.part'), bytes);
    await got.until('the refusal', () =>
      of(got.packets, 'status').some(({ words }) => words.includes('"broken.csv" was left out')),
    );
    // A file renamed into the folder is complete at once.
    writeFileSync(join(folder, 'second.csv'), await textFormat.write!(pull(2)));
    renameSync(join(folder, 'second.csv'), join(path, 'second.csv'));
    await got.until('the second file', () => of(got.packets, 'end').length === 2);
    await pause(300);
    expect(of(got.packets, 'header').map(({ device }) => device)).toEqual(['first.csv', 'second.csv']);
    await source.stop();
    expect(got.states().at(-1)).toBe('ended');
  });

  it('takes a renamed temporary file once, the same name again as another trial, and leaves what it cannot read', async () => {
    const path = mkdtempSync(join(folder, 'again-'));
    const got = collector();
    source = make(described({ kind: 'folder', path }));
    await source.start(got.emit);
    const ends = () => of(got.packets, 'end').length;
    writeFileSync(join(path, 'pull.csv.tmp'), await textFormat.write!(pull(4)));
    await pause(500);
    expect(ends()).toBe(0);
    renameSync(join(path, 'pull.csv.tmp'), join(path, 'pull.csv'));
    await got.until('the renamed file', () => ends() === 1);
    const second = pull(5);
    writeFileSync(join(path, 'pull.csv'), await textFormat.write!(second));
    await got.until('the same name again', () => ends() === 2);
    const from = got.packets.findLastIndex(({ kind }) => kind === 'header');
    expect(values(got.packets.slice(from), 0)).toEqual([...second.channels[0]!.raw]);
    writeFileSync(join(path, 'broken.c3d'), Buffer.alloc(600, 7));
    await got.until('the refusal', () =>
      of(got.packets, 'status').some(({ words }) => words.includes('"broken.c3d" was left out')),
    );
    expect(readdirSync(path).sort()).toEqual(['broken.c3d', 'pull.csv']);
    expect(ends()).toBe(2);
  });

  it('takes the described channels by name, with scale and offset on what the file gives', async () => {
    const path = join(folder, 'described');
    const got = collector();
    const channel = {
      name: 'right',
      plate: 'right',
      side: 'right',
      axis: 'z',
      unit: 'N',
      scale: -2,
      offset: 5,
    } as const;
    source = make(described({ kind: 'folder', path }, { channels: [channel] }));
    await source.start(got.emit);
    const recording = pull(3);
    writeFileSync(join(path, 'one.csv'), await textFormat.write!(recording));
    await got.until('the file', () => of(got.packets, 'end').length === 1);
    const { scale, offset } = of(got.packets, 'header')[0]!.channels[0]!;
    const raw = values(got.packets, 0);
    const truth = recording.channels[1]!.raw;
    for (let n = 0; n < raw.length; n += 97) expect((raw[n]! - offset) * scale).toBeCloseTo((truth[n]! - 5) * -2, 9);
    writeFileSync(join(path, 'two.csv'), 'time_s,left_n\n0,1\n0.001,2\n0.002,3\n');
    await got.until('the refusal', () =>
      of(got.packets, 'status').some(({ words }) => words.includes('no channel "right"')),
    );
  });

  it('fits names to patterns without taking long', () => {
    expect(fitsPattern('Pull 7.CSV', '*.csv')).toBe(true);
    expect(fitsPattern('pull.csv', 'p?ll.*')).toBe(true);
    expect(fitsPattern('pull.csv', '*.tsv')).toBe(false);
    for (const name of ['.hidden.csv', 'a.csv.tmp', 'a.part', 'a.csv~'])
      expect(fitsPattern(name, undefined)).toBe(false);
    const began = process.cpuUsage();
    expect(fitsPattern('a'.repeat(5000), `${'*a'.repeat(200)}b`)).toBe(false);
    expect(process.cpuUsage(began).user / 1000).toBeLessThan(500);
  });
});

describe('a replay', { retry: 2 }, () => {
  it('gives exactly the values and gaps of the file, as fast as possible', async () => {
    const gappy = pull(4, 'gap');
    for (const [name, format] of [
      ['pull.csv', textFormat],
      ['pull.parquet', parquetFormat],
    ] as const) {
      const file = join(folder, name);
      writeFileSync(file, await format.write!(gappy));
      const got = collector();
      source = make(described({ kind: 'replay', file, speed: 0 }));
      await source.start(got.emit);
      await got.until('the end', () => got.packets.at(-1)?.kind === 'end', 3000);
      expect(of(got.packets, 'gap').length).toBeGreaterThan(0);
      for (const c of [0, 1]) expect(values(got.packets, c)).toEqual([...gappy.channels[c]!.raw]);
      // Times lie on the recording's own time.
      const [header] = of(got.packets, 'header');
      const end = got.packets.at(-1)!;
      expect(Number(end.at - header!.at) / 1e9).toBeCloseTo(gappy.sampleCount / 1000, 6);
    }
  });

  it('makes forces of the signals of a file, and keeps the signals beside them', async () => {
    const gappy = pull(4, 'gap');
    const file = join(folder, 'signals.parquet');
    writeFileSync(file, await parquetFormat.write!(gappy));
    const signal = (name: string, scale: number, offset: number) =>
      ({ name, plate: 'plate', side: 'none', axis: 'other', unit: 'V', scale, offset }) as const;
    const channels = [signal('left', 0.01, 20), signal('right', 0.02, 0)];
    const calibration = [
      {
        signals: ['right', 'left'],
        matrix: [[50, 100]],
        channels: [{ name: 'Fz', plate: 'plate', side: 'none', axis: 'z', unit: 'N' }],
      },
    ] as const;
    const got = collector();
    source = make(described({ kind: 'replay', file, speed: 0, repeat: false }, { channels, calibration }));
    await source.start(got.emit);
    await got.until('the end', () => got.packets.at(-1)?.kind === 'end', 3000);
    expect(of(got.packets, 'header')[0]?.channels.map(({ name, axis }) => [name, axis])).toEqual([
      ['left', 'other'],
      ['right', 'other'],
      ['Fz', 'z'],
    ]);
    const [left, right, force] = [0, 1, 2].map((c) => values(got.packets, c));
    for (const c of [0, 1]) expect([left, right][c]).toEqual([...gappy.channels[c]!.raw]);
    // What the file gives is in N with scale 1; by hand: 100 * (left - 20) * 0.01 + 50 * right * 0.02 = left + right - 20.
    expect(gappy.channels.map(({ scale, offset }) => [scale, offset])).toEqual(Array(2).fill([1, 0]));
    let missing = 0;
    force!.forEach((value, n) => {
      const wanted = left![n]! + right![n]! - 20;
      if (Number.isNaN(wanted)) missing++;
      expect(Number.isNaN(value)).toBe(Number.isNaN(wanted));
      if (!Number.isNaN(wanted)) expect(Math.abs(value - wanted)).toBeLessThan(1e-9);
    });
    expect(missing).toBeGreaterThan(0);
  });

  it('keeps true speed, and any multiple of it', async () => {
    const file = join(folder, 'paced.csv');
    const recording = pull(5);
    writeFileSync(file, await textFormat.write!(recording));
    const duration = recording.sampleCount / 1000;
    for (const speed of [4, 10]) {
      const got = collector();
      source = make(described({ kind: 'replay', file, speed }));
      const began = performance.now();
      await source.start(got.emit);
      await got.until('the end', () => got.packets.at(-1)?.kind === 'end');
      const took = (performance.now() - began) / 1000;
      expect(took).toBeGreaterThan(duration / speed - 0.01);
      expect(took).toBeLessThan(duration / speed + 0.4);
    }
    const got = collector();
    source = make(described({ kind: 'replay', file, speed: 1 }));
    await source.start(got.emit);
    await pause(500);
    await source.stop();
    expect(got.samples()).toBeGreaterThan(350);
    expect(got.samples()).toBeLessThanOrEqual(540);
    expect(got.states().at(-1)).toBe('ended');
  });

  it('begins again when asked, and says in words what it cannot play', async () => {
    const file = join(folder, 'paced.csv');
    const got = collector();
    source = make(described({ kind: 'replay', file, speed: 50, repeat: true }));
    await source.start(got.emit);
    await got.until('two rounds', () => of(got.packets, 'end').length >= 2);
    await source.stop();
    const missing = collector();
    source = make(described({ kind: 'replay', file: join(folder, 'nowhere.csv'), speed: 1 }));
    await source.start(missing.emit);
    await missing.until('the refusal', () => missing.states().includes('lost'));
  });
});
