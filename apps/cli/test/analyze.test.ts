import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { resultDocument } from '@sthene/contract';
import { methodReference, methodRegistry, metricRegistry } from '@sthene/core';
import { readDataPackageZip } from '@sthene/formats';
import { describe, expect, it } from 'vitest';
import { folder, pullFile, sthene } from './at-terminal.ts';

const at = folder();
const document = (text: string) => resultDocument.parse(JSON.parse(text));

describe('sthene analyze', () => {
  it('needs no options for our own header and prints one valid document', async () => {
    const file = await pullFile(at, 1);
    const { code, out, err } = await sthene('analyze', file, '--json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const [recording] = document(out).recordings;
    expect(recording).toMatchObject({
      file,
      rate_hz: 1000,
      sha256: createHash('sha256').update(readFileSync(file)).digest('hex'),
    });
    const [trial] = recording?.trials ?? [];
    expect(Object.keys(trial?.metrics ?? {}).sort()).toEqual(metricRegistry.all.map((one) => one.id).sort());
    expect(trial?.method).toEqual(methodReference(methodRegistry.get('standard')!.method));
    expect(trial?.body_weight).toMatchObject({ unit: 'N', from: 'baseline' });
  });

  it('prints numbers in full precision, equal in JSON and CSV', async () => {
    const file = await pullFile(at, 2);
    const trial = document((await sthene('analyze', file, '--json')).out).recordings[0]?.trials[0];
    const table = (await sthene('analyze', file, '--csv')).out.split('\r\n');
    const row = table.find((line) => line.includes(',rfd_0_200,'))?.split(',');
    const metric = trial?.metrics.rfd_0_200;
    expect(metric && 'value' in metric && String(metric.value)).toBe(row?.[8]);
    expect(table.filter((line) => line !== '')).toHaveLength(1 + metricRegistry.all.length);
  });

  it('goes on past a bad file, says so at the end, and exits with 3', async () => {
    const good = await pullFile(at, 3);
    const bad = join(at, 'bad.csv');
    writeFileSync(bad, 'this is a letter, not a recording\n');
    const { code, out, err } = await sthene('analyze', bad, join(at, 'missing.csv'), good, '--json');
    expect(code).toBe(3);
    const { recordings, errors } = document(out);
    expect(recordings.map((one) => one.file)).toEqual([good]);
    expect(errors.map((one) => one.file)).toEqual([bad, join(at, 'missing.csv')]);
    expect(errors[1]?.code).toBe('file-not-found');
    expect(err).toContain('1 of 3 files analysed');
  });

  it('takes columns by name and by number, and a total alone', async () => {
    const file = await pullFile(at, 4);
    const peak = async (...options: string[]) => {
      const metric = document((await sthene('analyze', file, '--json', ...options)).out).recordings[0]?.trials[0]
        ?.metrics.left_force_at_peak;
      return metric && 'value' in metric ? metric.value : metric?.reason;
    };
    const usual = await peak();
    expect(await peak('--left', 'left_n', '--right', 'right_n')).toBe(usual);
    expect(await peak('--left', '2', '--right', '3')).toBe(usual);
    expect(await peak('--left', 'right_n', '--right', 'left_n')).not.toBe(usual);
    expect(await peak('--total', 'left_n')).toBe('one-side-only');
  });

  it('names and hashes a derived method when the baseline is overridden', async () => {
    const file = await pullFile(at, 5);
    const trial = document((await sthene('analyze', file, '--json', '--baseline', '0.5')).out).recordings[0]?.trials[0];
    const standard = methodReference(methodRegistry.get('standard')!.method);
    expect(trial?.method.sha256).not.toBe(standard.sha256);
    expect(trial?.method.derived_from).toEqual({ ...standard, changes: { 'window.baseline': 0.5 } });
    const baseline = trial?.events.baseline;
    expect(baseline && 'start' in baseline && baseline.end - baseline.start).toBe(500);
  });

  it('takes a given body weight, a span and a unit', async () => {
    const file = await pullFile(at, 6);
    const given = document((await sthene('analyze', file, '--json', '--body-weight', '700')).out).recordings[0]
      ?.trials[0];
    expect(given?.body_weight).toEqual({ value: 700, unit: 'N', from: 'given' });
    const whole = document((await sthene('analyze', file, '--json')).out).recordings[0]?.trials[0];
    const kilo = document((await sthene('analyze', file, '--json', '--unit', 'kN')).out).recordings[0]?.trials[0];
    const force = (trial: typeof whole) =>
      trial?.metrics.peak_force && 'value' in trial.metrics.peak_force ? trial.metrics.peak_force.value : 0;
    expect(force(kilo)).toBeCloseTo(1000 * force(whole), 6);
    const cut = document((await sthene('analyze', file, '--json', '--from', '0.5', '--to', '6')).out).recordings[0]
      ?.trials[0];
    expect(cut?.span).toEqual({ start: 500, end: 6001 });
  });

  it('writes files whole, and never over one that is there', async () => {
    const file = await pullFile(at, 7);
    const out = join(at, 'out');
    const first = await sthene('analyze', file, '--out', out, '--csv');
    expect(first).toMatchObject({ code: 0, out: '' });
    expect(existsSync(join(out, 'results.json')) && existsSync(join(out, 'results.csv'))).toBe(true);
    const second = await sthene('analyze', file, '--out', out);
    expect(second.code).toBe(7);
    expect(second.err).toContain('output-exists');
    expect((await sthene('analyze', file, '--out', out, '--overwrite')).code).toBe(0);
  });

  it('shares curves and results as a Data Package that reads back to the same values', async () => {
    const file = await pullFile(at, 9);
    const zip = join(at, 'shared.zip');
    const analysed = await sthene('analyze', file, '--json', '--package', zip);
    const again = await sthene('analyze', zip, '--json');
    const trial = (text: string) => document(text).recordings[0]?.trials[0];
    expect(trial(again.out)).toEqual(trial(analysed.out));
    const found = await readDataPackageZip(new Uint8Array(readFileSync(zip)));
    const row = found.ok && found.contents.results?.find((one) => one.metric === 'peak_force');
    const peak = trial(analysed.out)?.metrics.peak_force;
    expect(row ? row.value : undefined).toBe(peak && 'value' in peak && peak.value);
  });

  it('reads as words, verdict first', async () => {
    const file = await pullFile(at, 8);
    const { out } = await sthene('analyze', file);
    expect(out.split('\n')[0]).toMatch(/: (counts|look again|repeat)$/);
    expect(out).toMatch(/Peak force +\d+ N/);
  });

  it.each([
    [['analyze']],
    [['analyze', 'x.csv', '--rate', 'fast']],
    [['analyze', 'x.csv', '--test', 'no-such-test']],
    [['analyze', 'x.csv', '--method', 'no-such-method']],
    [['analyze', 'x.csv', '--no-such-option']],
    [['analyse', 'x.csv']],
    [[]],
  ])('answers %j with how it is used, exit 2', async (args) => {
    const { code, out, err } = await sthene(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.length).toBeGreaterThan(20);
  });
});
