import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { runPython } from './child.ts';
import { agreement, mustAgree, type Numbers, required } from './compare.ts';
import { writePulls } from './pulls.ts';
import { findPython } from './python.ts';
// @ts-expect-error plain JavaScript, as it runs without tsx when it is measured
import { everyNumberOf } from './work/analysis.mjs';
// @ts-expect-error the same
import { readAndAnalyse, trialOf } from './work/read-and-analyse.mjs';

const python = findPython();
const reason = 'missing' in python ? ` (skipped: ${python.missing})` : '';
const folder = mkdtempSync(join(tmpdir(), 'sthene-bench-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// The reference is bench/reference/analyse.py with Debian's numpy 1.24.2, scipy 1.10.1 and pandas 1.5.3: a second writing of
// the definitions in docs/reference/analysis.md, with other means.
describe(`both sides of the comparison give the same numbers${reason}`, () => {
  test.skipIf('missing' in python)('three pulls, every number within 1e-6, the onset the same sample', async () => {
    if ('missing' in python) throw new Error(python.missing);
    writePulls(folder, 3);
    const paths = readdirSync(folder)
      .sort()
      .map((name) => join(folder, name));
    const ours = ((await readAndAnalyse(paths)) as { results: Numbers[] }).results;
    const script = async (amount: string) =>
      (await runPython<{ results: Numbers[] }>(python.path, 'files', [folder, amount])).said.results;
    expect(ours).toHaveLength(3);
    const few = agreement(ours, await script('main'));
    expect(few.largest).toBeLessThanOrEqual(1e-6);
    expect(few.names).toHaveLength(27);
    expect(agreement(ours, await script('straight')).largest).toBeLessThanOrEqual(1e-6);

    const everything = [];
    for (const path of paths) everything.push(everyNumberOf(await trialOf(path)));
    const all = agreement(everything, await script('everything'));
    expect(all.largest).toBeLessThanOrEqual(1e-6);
    expect(all.names.filter((name) => !name.includes('@')).length).toBeGreaterThan(100);
    expect(all.names.filter((name) => name.includes('@')).length).toBeGreaterThan(600);
  });
});

describe('the comparison itself', () => {
  const one = Object.fromEntries(required.map((name) => [name, 100])) as Numbers;
  test('refuses a number that differs, an onset one sample off, and a missing number', () => {
    expect(() => mustAgree([one], [one])).not.toThrow();
    expect(() => mustAgree([one], [{ ...one, peak_force: 100.001 }])).toThrow('peak_force of pull 1');
    expect(() => mustAgree([one], [{ ...one, onset: 101 }])).toThrow('onset of pull 1');
    expect(() => mustAgree([one], [{ ...one, rfd_0_100: Number.NaN }])).toThrow('rfd_0_100');
    const { rfd_0_200: _, ...lacking } = one;
    expect(() => mustAgree([one], [lacking])).toThrow('lacks rfd_0_200');
    expect(() => mustAgree([one], [])).toThrow('1 pulls stand against 0');
  });
});
