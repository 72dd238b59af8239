import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defaultMethod, type MethodDraft, methodReference, methodRegistry, succeedMethod } from '@sthene/core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { fillSmallLab, withLab } from '../../station/test/filled-lab.ts';
import { sthene } from './at-terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'sthene-cli-recompute-'));
beforeAll(() => withLab(folder, (lab) => fillSmallLab(lab, 2)));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = ['--data', folder];
const current = () =>
  withLab(folder, async ({ store }) => (await store.settings.get<string>('analysis.method'))?.value);

it('compares and discards, and leaves the lab as it was', async () => {
  const { code, out } = await sthene(
    'recompute',
    '--method',
    'fixed-75',
    '--discard',
    '--reason',
    'only tried',
    '--json',
    ...at,
  );
  expect(code).toBe(0);
  const found = JSON.parse(out) as Record<string, unknown> & { metrics: { id: string; n: number; same: boolean }[] };
  const fixed = methodRegistry.get('fixed-75')?.method as typeof defaultMethod;
  expect(found).toMatchObject({
    schema: 'sthene.recomputation/1',
    state: 'discarded',
    trials: 6,
    done: 6,
    failed: 0,
    method: methodReference(fixed),
  });
  expect(found.metrics.find(({ id }) => id === 'peak_force')?.same).toBe(true);
  expect(found.metrics.find(({ id }) => id === 'force_at_100')?.same).toBe(false);
  expect(await current()).toBeUndefined();
});

it('takes a method from a file, leaves the run finished, and goes on with it to adopt it', async () => {
  const draft = { ...defaultMethod, name: 'Boathouse', onset: { rule: 'five-sd', version: 1 } } as MethodDraft;
  const outcome = succeedMethod(defaultMethod, draft, []);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  const file = join(folder, 'boathouse.json');
  writeFileSync(file, JSON.stringify(outcome.method));
  const first = await sthene('recompute', '--method', file, ...at);
  expect(first.code).toBe(0);
  expect(first.out).toContain('Boathouse, version 1');
  expect(first.out).toContain('the run is finished');
  expect(await current()).toBeUndefined();
  const { sha256 } = methodReference(outcome.method);
  const second = await sthene('recompute', '--method', sha256, '--adopt', '--reason', 'agreed', ...at);
  expect(second).toMatchObject({ code: 0 });
  expect(second.out).toContain('the run is adopted');
  expect(await current()).toBe(sha256);
  const runs = await withLab(folder, ({ store }) => store.recomputations.list());
  expect(runs.map(({ state }) => state)).toEqual(['adopted', 'discarded']);
});

it('asks for a reason, and refuses what is no method or no lab', async () => {
  expect(await sthene('recompute', '--method', 'fixed-75', '--adopt', ...at)).toMatchObject({ code: 2 });
  const both = ['--adopt', '--discard', '--reason', 'x'];
  expect(await sthene('recompute', '--method', 'fixed-75', ...both, ...at)).toMatchObject({ code: 2 });
  const unknown = await sthene('recompute', '--method', 'nonsense', ...at);
  expect(unknown.code).toBe(2);
  expect(unknown.err).toContain('method-unknown');
  const none = await sthene('recompute', '--method', 'fixed-75', '--data', join(folder, 'nowhere'));
  expect(none.code).toBe(4);
});
