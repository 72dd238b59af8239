import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { version } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { folder, pullFile, sthene } from './at-terminal.ts';

const at = folder();
const shared = new URL('../../../../shared/data/', import.meta.url);
const withShared = it.skipIf(!existsSync(shared));
if (!existsSync(shared)) console.warn('skipped: the recordings of others are not at ../shared/data');
const path = (name: string) => new URL(name, shared).pathname;

describe('every command', () => {
  it.each(['analyze', 'inspect', 'convert', 'methods', 'station'])('%s has help with an example', async (name) => {
    const { code, out } = await sthene(name, '--help');
    expect(code).toBe(0);
    expect(out).toMatch(/Examples?:\n {2}sthene /);
  });

  it('knows its version, which is that of the package', async () => {
    const manifest = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url), 'utf8')) as {
      version: string;
    };
    expect(version).toBe(manifest.version);
    expect((await sthene('--version')).out.trim()).toBe(version);
  });
});

describe('sthene inspect', () => {
  it('says what is in a file, and which channels could be forces', async () => {
    const file = await pullFile(at, 11);
    const found = JSON.parse((await sthene('inspect', file, '--json')).out);
    expect(found).toMatchObject({
      format: 'text',
      rate_hz: 1000,
      channels: [
        { number: 1, name: 'left', unit: 'N' },
        { number: 2, name: 'right', unit: 'N' },
      ],
    });
    expect(found.channels[0].min).toBeLessThan(found.channels[0].mean);
    expect(found.recordings[0].forces).toMatchObject([
      { from: 'left', part: 'left', chosen: true },
      { from: 'right', part: 'right', chosen: true },
    ]);
  });

  it('tells what each format missed', async () => {
    const file = join(at, 'letter.txt');
    writeFileSync(file, 'Dear rowers,\nno numbers today.\n');
    const { code, out } = await sthene('inspect', file, '--json');
    expect(code).toBe(3);
    const found = JSON.parse(out);
    expect(found.error.code).toMatch(/^(text|format)-/);
    expect(found.candidates.length).toBeGreaterThanOrEqual(3);
    expect(found.candidates.every((one: { reason: string }) => one.reason.length > 10)).toBe(true);
  });

  // facts of ../shared/data/SOURCE.md, sample set of c3d.org
  withShared.each([
    ['c3d-samples/sample_01/Eb015pi.c3d', [-838, -836], 1],
    ['c3d-samples/sample_10/TYPE-2a.c3d', [-521.6, -582.8], 0.06],
    ['c3d-samples/sample_10/TYPE-4a.c3d', [-520.7, -583.2], 0.06],
    ['c3d-odd/walk.c3d', [-988, -863, 0, -819], 0.5],
    ['vertical-jumps/Gait.c3d', [-799, -855], 0.5],
  ])('gives the vertical force of the platforms of %s', async (name, minima, tolerance) => {
    const found = JSON.parse((await sthene('inspect', path(name), '--json')).out);
    expect(found.force_platforms).toHaveLength(minima.length);
    minima.forEach((minimum, i) => {
      expect(Math.abs(found.force_platforms[i].min - minimum)).toBeLessThanOrEqual(tolerance);
    });
  });
});

describe('recordings of others', () => {
  withShared('two plates by name: the sides are where the options put them', async () => {
    const { code, out } = await sthene(
      'analyze',
      path('two-plate-jumps/BFR010_squat_jump.csv'),
      '--right',
      'ground_force1_vy',
      '--left',
      'ground_force2_vy',
      '--to',
      '1.2',
      '--json',
    );
    const trial = JSON.parse(out).recordings[0].trials[0];
    // a jump is no pull: it is refused with a reason or a verdict, never counted
    expect([0, 4]).toContain(code);
    expect(trial.verdict).not.toBe('counts');
  });

  withShared('the pinch file holds twenty trials that are too short for a quiet second, and says so', async () => {
    const { code, out } = await sthene(
      'analyze',
      path('isometric-pinch/pinchraw.csv'),
      '--rate',
      '500',
      '--test',
      'isometric-effort',
      '--json',
    );
    const { recordings } = JSON.parse(out);
    expect(recordings).toHaveLength(20);
    expect(
      recordings.every((one: { trials: { reason?: string }[] }) => one.trials[0]?.reason === 'no-standing-window'),
    ).toBe(true);
    expect(code).toBe(4);
  });
});

describe('sthene convert', () => {
  it.each(['parquet', 'c3d', 'csv'])('to %s and back gives the same values', async (ending) => {
    const file = await pullFile(at, 12);
    const to = join(at, `converted.${ending}`);
    expect((await sthene('convert', file, to)).code).toBe(0);
    const values = async (name: string) =>
      JSON.parse((await sthene('analyze', name, '--json')).out).recordings[0].trials;
    expect(await values(to)).toEqual(await values(file));
    expect((await sthene('convert', file, to)).code).toBe(7);
  });

  it('refuses an ending it does not write', async () => {
    const { code, err } = await sthene('convert', await pullFile(at, 13), join(at, 'x.docx'));
    expect(code).toBe(2);
    expect(err).toContain('output-format-unknown');
  });
});

describe('sthene methods', () => {
  it('lists the built-in methods with their hashes', async () => {
    const rows = JSON.parse((await sthene('methods', 'list', '--json')).out) as { id: string; sha256: string }[];
    expect(rows.map((row) => row.id)).toEqual(expect.arrayContaining(['standard', 'fixed-75', 'low-pass-50']));
    expect(rows.every((row) => /^[0-9a-f]{64}$/.test(row.sha256))).toBe(true);
  });

  it('takes a document it printed itself as a method, with the same hash', async () => {
    const file = join(at, 'method.json');
    writeFileSync(file, (await sthene('methods', 'show', 'fixed-75', '--json')).out);
    const pull = await pullFile(at, 14);
    const method = async (name: string) =>
      JSON.parse((await sthene('analyze', pull, '--method', name, '--json')).out).recordings[0].trials[0].method;
    expect(await method(file)).toEqual(await method('fixed-75'));
  });

  it('names what is wrong with a method document', async () => {
    const file = join(at, 'wrong.json');
    const document = JSON.parse((await sthene('methods', 'show', 'standard', '--json')).out);
    writeFileSync(file, JSON.stringify({ ...document, windw: 1 }));
    const { code, err } = await sthene('analyze', await pullFile(at, 15), '--method', file);
    expect(code).toBe(3);
    expect(err).toMatch(/method-invalid/);
    expect(err).toContain('windw');
  });

  it('compares two on files', async () => {
    const files = [await pullFile(at, 16), await pullFile(at, 17)];
    const { metrics } = JSON.parse(
      (await sthene('methods', 'compare', 'standard', 'fixed-75', ...files, '--json')).out,
    ) as { metrics: { metric: string; n: number; mean_difference: number }[] };
    expect(metrics.find((row) => row.metric === 'peak_force')).toMatchObject({ n: 2, mean_difference: 0 });
    expect(metrics.find((row) => row.metric === 'force_at_100')?.mean_difference).toBeGreaterThan(0);
  });
});
