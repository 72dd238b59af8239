import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { forcesOf } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { bytesOf } from '../byte-source.ts';
import { describeText } from './describe.ts';
import type { TextOptions } from './options.ts';
import { readText } from './read.ts';

// Recordings of other people; origin, licence and the facts tested here stand in SOURCE.md of that folder.
const folder = resolve(import.meta.dirname, '../../../../../shared/data');
const there = existsSync(folder);
if (!there) console.warn(`Skipped: the recordings of others are not at ${folder}.`);

const source = (name: string) => bytesOf(readFileSync(resolve(folder, name)), name);

async function read(name: string, options: TextOptions = {}) {
  const result = await readText(source(name), options);
  if (!result.ok) throw new Error(`${result.error.code}: ${result.error.message}`);
  return result.recordings;
}

const mean = (values: ArrayLike<number>, from: number, to: number): number => {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return sum / (to - from);
};

function deviation(values: ArrayLike<number>, from: number, to: number): number {
  const m = mean(values, from, to);
  let sum = 0;
  for (let i = from; i < to; i++) sum += (values[i]! - m) ** 2;
  return Math.sqrt(sum / (to - from - 1));
}

describe.skipIf(!there)('text recordings made by others', () => {
  it.each([
    ['BFR003_squat_jump.csv', 12080, 784.6, 2.0, [2.4, 5.92, 9.68], [0.29, 0.309, 0.304]],
    ['BFR010_squat_jump.csv', 7850, 580.1, 1.9, [1.93, 4.12, 6.23], [0.311, 0.317, 0.327]],
    ['BFR011_squat_jump.csv', 14370, 757.8, 2.8, [3.56, 7.36, 11.14], [0.246, 0.382, 0.381]],
  ])('two plates with preamble and byte-order mark: %s', async (name, rows, stance, sd, starts, lengths) => {
    const [only, ...others] = await read(`two-plate-jumps/${name}`);
    const { recording } = only!;
    expect(others).toEqual([]);
    expect([recording.sampleRate, recording.rateOrigin, recording.sampleCount]).toEqual([
      1000,
      'time-column-snapped',
      rows,
    ]);
    expect(recording.channels).toHaveLength(18);
    expect(recording.facts).toMatchObject({ version: '1', nRows: String(rows), nColumns: '19', inDegrees: 'yes' });
    expect(recording.gaps).toEqual([]);
    expect(recording.notices).toEqual([]);
    const at = (channel: string) => recording.channels.findIndex((c) => c.name === channel);
    const forces = forcesOf(recording, {
      inputs: [
        { from: { kind: 'channel', index: at('ground_force1_vy') }, part: 'right', unit: 'N' },
        { from: { kind: 'channel', index: at('ground_force2_vy') }, part: 'left', unit: 'N' },
      ],
    });
    if (!forces.ok) throw new Error(forces.reason);
    const { total } = forces.value;
    expect(mean(total, 0, 500)).toBeCloseTo(stance, 1);
    expect(deviation(total, 0, 500)).toBeCloseTo(sd, 1);
    // Flights: the sum below 20 N, as in SOURCE.md; starts are said to be "near" a hundredth, lengths are exact.
    const flights: [number, number][] = [];
    for (let n = 1; n < total.length; n++) {
      if (total[n]! < 20 && total[n - 1]! >= 20) flights.push([n, n]);
      if (total[n]! < 20) flights.at(-1)![1] = n + 1;
    }
    const long = flights.filter(([a, b]) => b - a > 100);
    expect(long).toHaveLength(starts.length);
    for (const [i, [a]] of long.entries()) expect(Math.abs(a / 1000 - starts[i]!)).toBeLessThanOrEqual(0.0101);
    expect(long.map(([a, b]) => (b - a) / 1000)).toEqual(lengths);
  });

  it('a bare column needs a rate and gets it', async () => {
    const name = 'vertical-jumps/GRFZjump.txt';
    const refused = await readText(source(name));
    expect(!refused.ok && refused.error.code).toBe('text-rate-missing');
    const [{ recording }] = (await read(name, { rate: 600, units: { '1': 'N' } })) as [
      Awaited<ReturnType<typeof read>>[0],
    ];
    expect([recording.sampleRate, recording.rateOrigin, recording.sampleCount]).toEqual([600, 'given', 1200]);
    expect(recording.channels.map((c) => [c.name, c.unit])).toEqual([['column 1', 'N']]);
    // The file's own first and last line.
    expect([recording.channels[0]!.raw[0], recording.channels[0]!.raw[1199]]).toEqual([633.21, 639.5]);
  });

  it.each([
    ['jump1.txt', 691, 4697],
    ['jump2.txt', 772, 4232],
  ])('tabs, units in the header, 450 Hz from the times: %s', async (name, stance, landing) => {
    const [{ recording }] = (await read(`vertical-jumps/${name}`)) as [Awaited<ReturnType<typeof read>>[0]];
    expect([recording.sampleRate, recording.rateOrigin]).toEqual([450, 'time-column-snapped']);
    expect(recording.channels.map((c) => [c.name, c.unit])).toEqual([['GRF', 'N']]);
    const force = recording.channels[0]!.raw;
    expect(Math.round(Math.max(...force))).toBe(landing);
    // Stance: the steadiest second of all with someone on the plate.
    let best = { sd: Number.POSITIVE_INFINITY, mean: 0 };
    for (let k = 0; k + 450 <= force.length; k += 5) {
      const m = mean(force, k, k + 450);
      const sd = deviation(force, k, k + 450);
      if (m > 400 && sd < best.sd) best = { sd, mean: m };
    }
    // "About", without the window it was taken over: half a per cent.
    expect(Math.abs(best.mean - stance) / stance).toBeLessThan(0.005);
  });

  it('trials as columns: twenty pinches', async () => {
    const name = 'isometric-pinch/pinchraw.csv';
    const recordings = await read(name);
    expect(recordings.map(({ label }) => label)).toEqual(
      Array.from({ length: 20 }, (_, i) => `rep${String(i + 1).padStart(2, '0')}`),
    );
    const peaks = recordings.map(({ recording }) => {
      expect([recording.sampleRate, recording.sampleCount, recording.channels.length]).toEqual([500, 151, 1]);
      return Math.max(...recording.channels[0]!.raw);
    });
    expect(mean(peaks, 0, 20)).toBeCloseTo(10.83, 2);
    expect(deviation(peaks, 0, 20)).toBeCloseTo(0.86, 2);
    expect(Math.min(...peaks)).toBeCloseTo(9.05, 2);
    expect(Math.max(...peaks)).toBeCloseTo(12.28, 2);
    const one = await read(name, { layout: 'channels', columns: ['rep02', 5], units: { rep02: 'N', '5': 'N' } });
    expect(one).toHaveLength(1);
    expect(one[0]!.recording.channels.map((c) => [c.name, c.unit])).toEqual([
      ['rep02', 'N'],
      ['rep04', 'N'],
    ]);
    // Without its time column the same file needs a rate and then gives the same trials.
    const text = new TextDecoder().decode(readFileSync(resolve(folder, name))).replace(/^[^,]*,/gm, '');
    const bare = await readText(bytesOf(new TextEncoder().encode(text)), { rate: 500 });
    expect(bare.ok && bare.recordings.map((r) => [r.label, r.recording.channels])).toEqual(
      recordings.map((r) => [r.label, r.recording.channels]),
    );
  });

  it('values equal Number() of the cells, bit for bit', async () => {
    for (const name of ['two-plate-jumps/BFR010_squat_jump.csv', 'vertical-jumps/jump1.txt']) {
      const [{ recording }] = (await read(name)) as [Awaited<ReturnType<typeof read>>[0]];
      const lines = new TextDecoder()
        .decode(readFileSync(resolve(folder, name)))
        .split(/\r?\n/)
        .filter((line) => line !== '');
      const rows = lines.slice(lines.length - recording.sampleCount).map((line) => line.split(/[,\t]/));
      let wrong = 0;
      recording.channels.forEach((channel, c) => {
        rows.forEach((row, n) => {
          if (!Object.is(channel.raw[n], Number(row[c + 1]))) wrong++;
        });
      });
      expect(wrong).toBe(0);
    }
  });

  it('describes without reading the whole', async () => {
    const file = source('two-plate-jumps/BFR011_squat_jump.csv');
    let asked = 0;
    const counted = {
      ...file,
      read: async (offset: number, length: number) => {
        const bytes = await file.read(offset, length);
        asked += bytes.length;
        return bytes;
      },
    };
    const result = await describeText(counted);
    if (!result.ok) throw new Error(result.error.message);
    const { description } = result;
    expect(asked).toBeLessThanOrEqual(2 * 65536);
    expect(description).toMatchObject({
      encoding: 'utf-8',
      byteOrderMark: true,
      delimiter: ',',
      decimal: '.',
      preambleRows: 6,
      headerRow: 7,
      dataRow: 8,
      layout: 'channels',
      confidence: 'high',
      rateMissing: false,
      rate: { hertz: 1000, from: 'time-column' },
    });
    expect(description.rowsAbout).toBe(14370);
  });
});
