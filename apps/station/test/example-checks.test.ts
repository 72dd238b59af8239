import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { application } from '@sthene/contract';
import { afterAll, expect, it } from 'vitest';
import { addExampleChecks } from '../src/example/example-checks.ts';
import { Labs } from '../src/labs/labs.ts';
import { makeReport } from '../src/work/report/make-report.ts';

const folder = mkdtempSync(join(tmpdir(), 'sthene-example-checks-'));
const labs = new Labs({ data: folder, application });
afterAll(async () => {
  await labs.close();
  rmSync(folder, { recursive: true, force: true });
});

it('the example has a rig with three yearly checks: one plate drifts away, the other begins to stick', async () => {
  const lab = await labs.create('lab', 'Fernwater Rowing Club');
  await addExampleChecks(lab);
  await addExampleChecks(lab);
  const rigs = await lab.store.rigs.list();
  expect(rigs.map(({ letter }) => letter)).toEqual(['F']);
  const checks = await lab.store.rigChecks.ofRig(rigs[0]!.id);
  expect(checks.map(({ at, result }) => [at.slice(0, 4), result.verdict])).toEqual([
    ['2023', 'passes'],
    ['2024', 'passes'],
    ['2025', 'fails'],
  ]);
  const failed = checks[2]?.result.quantities.filter(({ standing }) => standing === 'fail');
  expect(failed?.map(({ plate, id }) => `${plate} ${id}`)).toEqual(
    expect.arrayContaining(['left gain', 'right hysteresis', 'right zero-return']),
  );
  expect(failed?.some(({ plate, id }) => plate === 'left' && id === 'hysteresis')).toBe(false);
  // What is stored is what the rules make of what was read, and the newest is the one that is reported.
  const { report } = await makeReport(lab, 'plates', { rig: rigs[0]!.id });
  expect([report.subject, report.dated]).toEqual(['Rig F: Boathouse plates', '2025-09-01T08:00:00.000Z']);
  await expect(makeReport(lab, 'plates', {})).rejects.toMatchObject({ code: 'report-subject-missing' });
  await expect(makeReport(lab, 'plates', { rig: 'none' })).rejects.toMatchObject({ code: 'not-found' });
});
