import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { application } from '@sthene/contract';
import type { UtcInstant } from '@sthene/core';
import { afterAll, expect, it } from 'vitest';
import { addExampleChecks } from '../src/example/example-checks.ts';
import { Labs } from '../src/labs/labs.ts';
import { type OpenLab, stationActor } from '../src/labs/open-lab.ts';
import { rigCheckOf, rigChecksOf } from '../src/work/uncertainty/rig-check.ts';

const folder = mkdtempSync(join(tmpdir(), 'sthene-check-then-'));
const labs = new Labs({ data: folder, application });
afterAll(async () => {
  await labs.close();
  rmSync(folder, { recursive: true, force: true });
});

it('the check that held for an effort is the last one, and a correction put on afterwards has its own', async () => {
  const lab = await labs.create('lab', 'Fernwater Rowing Club');
  await addExampleChecks(lab);
  const { rigs, rigChecks } = lab.store;
  const rig = (await rigs.list())[0]!.id;
  // Both of the first pass, the third fails: its correction is adopted today.
  const [, sound, worn] = await rigChecks.ofRig(rig);
  const correction = await rigChecks.correct(
    { rig, check: worn!.id, plates: [{ plate: 'left', gain: 1.01, offset: 0 }], reason: 'Found by masses.' },
    stationActor,
  );
  const of = async (startedAt: string, carried?: string) =>
    (await rigCheckOf(lab, { id: 'session', rig, startedAt: startedAt as UtcInstant }, carried))?.id;
  const corrected = `${worn!.id} corrected`;
  // Before the correction, without and with it; the check itself may be older than the session.
  expect(await of('2025-06-01T09:00:00.000Z')).toBe(sound!.id);
  expect(await of('2025-06-01T09:00:00.000Z', correction.id)).toBe(corrected);
  expect(await of('2025-10-01T09:00:00.000Z')).toBe(sound!.id);
  expect(await of('2025-10-01T09:00:00.000Z', correction.id)).toBe(corrected);
  // Of a session that is looked at as a whole, its last effort tells.
  const efforts = (...carried: (string | undefined)[]) => {
    const trials = { ofSession: async () => carried.map((_, at) => ({ id: `${at}` })) };
    const channels = (id: string | undefined) => [{}, id === undefined ? {} : { corrected: { id } }];
    const origins = { ofTrial: async (at: string) => ({ facts: { channels: channels(carried[Number(at)]) } }) };
    const store = { rigChecks, trials, origins };
    const sessions = [{ id: 'session', rig, startedAt: '2025-10-01T09:00:00.000Z' as UtcInstant }];
    return rigChecksOf({ store } as unknown as OpenLab, sessions).then(([found]) => found?.id);
  };
  expect(await efforts()).toBe(sound!.id);
  expect(await efforts(undefined, undefined)).toBe(sound!.id);
  expect(await efforts(undefined, correction.id)).toBe(corrected);
  // Under the correction, which every live effort carries from then on: until a later check was made with it in force.
  expect(await of('2998-01-01T09:00:00.000Z', correction.id)).toBe(corrected);
  const { document, result } = sound!;
  const later = { rig, document, result, note: '', at: '2999-01-01T09:00:00.000Z' as UtcInstant };
  const again = await rigChecks.add(later, stationActor);
  expect(await of('2999-02-01T09:00:00.000Z', correction.id)).toBe(again.id);
  expect(await of('2998-01-01T09:00:00.000Z', correction.id)).toBe(corrected);
  expect(await of('2025-06-01T09:00:00.000Z', correction.id)).toBe(corrected);
});
