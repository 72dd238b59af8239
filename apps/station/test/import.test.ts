import { routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { simulatedFile } from './simulated-file.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

let station: StationUnderTest;
beforeAll(async () => {
  station = await stationUnderTest();
  await station.ask(routes.createLab, { params: { lab: 'lab' }, body: { name: 'Boathouse' } });
});
afterAll(() => station.end());

const lab = { lab: 'lab' as const };
const inputs = [
  { from: { kind: 'channel' as const, index: 0 }, part: 'left' as const },
  { from: { kind: 'channel' as const, index: 1 }, part: 'right' as const },
];
const request = (upload: string) => ({
  upload,
  mapping: { reading: {}, inputs, test: 'imtp', efforts: 'largest' as const },
  person: { create: { givenName: 'Nele', familyName: 'Quist' } },
  onDuplicate: 'skip' as const,
  by: 'Operator One',
});

const send = async (seed: number, name = 'pull.csv') => {
  const { bytes, truth } = await simulatedFile(seed);
  return { upload: await station.ask(routes.upload, { params: lab, query: { name }, bytes }), bytes, truth };
};

describe('an import', () => {
  it('recognises the file before anything is decided', async () => {
    const { upload, bytes } = await send(1);
    expect(upload).toMatchObject({ format: 'text', bytes: bytes.length, duplicates: [] });
    expect(upload.candidates.find((one) => one.format === 'text')?.match).toBe('yes');
  });

  it('changes nothing when it is a dry run', async () => {
    const { upload, truth } = await send(2);
    const before = await station.ask(routes.sessions, { params: lab });
    const written = (await station.ask(routes.audit, { params: lab })).total;
    const outcome = await station.ask(routes.dryRun, { params: lab, body: request(upload.id) });
    expect(outcome).toMatchObject({ dryRun: true, recordings: 1 });
    // the truth is of the pull itself; plate noise may lift the largest sample
    expect(Math.abs((outcome.trials[0]?.peakForce ?? 0) - truth.peak.force)).toBeLessThan(0.02 * truth.peak.force);
    expect(await station.ask(routes.sessions, { params: lab })).toEqual(before);
    expect((await station.ask(routes.audit, { params: lab })).total).toBe(written);
  });

  it('adds to a session of the same test with its weighing, and refuses another test', async () => {
    const { upload } = await send(21);
    const first = await station.ask(routes.import, {
      params: lab,
      body: { ...request(upload.id), mapping: { ...request(upload.id).mapping, bodyWeight: 700 } },
    });
    const session = first.session as string;
    const { upload: more } = await send(22);
    const squat = { ...request(more.id), session, mapping: { ...request(more.id).mapping, test: 'isometric-squat' } };
    await expect(station.ask(routes.import, { params: lab, body: squat })).rejects.toMatchObject({
      problem: { status: 409, code: 'session-of-another-test' },
    });
    const joined = await station.ask(routes.import, { params: lab, body: { ...request(more.id), session } });
    expect(joined.session).toBe(session);
    const view = await station.ask(routes.trial, { params: { ...lab, id: joined.trials[0]?.id as string } });
    expect(view.result.bodyWeight).toEqual({ ok: true, value: { value: 700, unit: 'N', from: 'given' } });
    expect((await station.ask(routes.session, { params: { ...lab, id: session } })).rows).toHaveLength(2);
  });

  it('hands on with the curve what the reader had to decide', async () => {
    const { bytes } = await simulatedFile(23);
    const lines = new TextDecoder().decode(bytes).split('\n');
    lines[900] = 'a hand slipped';
    const broken = new TextEncoder().encode(lines.join('\n')) as Uint8Array<ArrayBuffer>;
    const upload = await station.ask(routes.upload, { params: lab, query: { name: 'broken.csv' }, bytes: broken });
    const outcome = await station.ask(routes.import, { params: lab, body: request(upload.id) });
    expect(outcome.notices.length).toBeGreaterThan(0);
    expect((await station.curve(outcome.trials[0]?.id as string)).notices).toEqual(outcome.notices);
  });

  it('keeps the file byte for byte and the exact curve', async () => {
    const { upload, bytes } = await send(3, 'Ärger; drop table "x".csv');
    const outcome = await station.ask(routes.import, { params: lab, body: request(upload.id) });
    const id = outcome.trials[0]?.id as string;
    const view = await station.ask(routes.trial, { params: { ...lab, id } });
    expect(view.recording.fileName).toBe('Ärger; drop table "x".csv');
    expect(view.provenance.recording).toBe(upload.sha256);
    const kept = await fetch(`${station.address}api/labs/lab/recordings/${upload.sha256}/file`);
    expect(new Uint8Array(await kept.arrayBuffer())).toEqual(bytes);
    const curve = await station.curve(id);
    const peak = view.result.metrics.peak_force;
    expect(peak && 'value' in peak ? peak.value : 0).toBe(
      Math.max(
        ...(curve.values[0]?.subarray((view.result.events?.halfRise ?? 0) + 1, (view.result.events?.end ?? 0) + 1) ??
          []),
      ),
    );
  });

  it('recognises the same recording again and skips it unless told to keep both', async () => {
    const { upload } = await send(4);
    const first = await station.ask(routes.import, { params: lab, body: request(upload.id) });
    const { upload: again } = await send(4, 'renamed.csv');
    expect(again.duplicates).toHaveLength(1);
    expect(again.duplicates[0]?.trial).toBe(first.trials[0]?.id);
    const skipped = await station.ask(routes.import, { params: lab, body: request(again.id) });
    expect(skipped).toMatchObject({ trials: [], skipped: [{ label: '' }] });
    const both = await station.ask(routes.import, {
      params: lab,
      body: { ...request((await send(4)).upload.id), onDuplicate: 'keep-both' },
    });
    expect(both.trials).toHaveLength(1);
  });

  it('remembers a mapping under its header', async () => {
    const { upload } = await send(5);
    await station.ask(routes.import, {
      params: lab,
      body: { ...request(upload.id), remember: { signature: 'time_s,left_n,right_n', name: 'own files' } },
    });
    const found = await station.ask(routes.templates, { params: lab, query: { signature: 'time_s,left_n,right_n' } });
    expect(found).toMatchObject([{ name: 'own files', mapping: { test: 'imtp', inputs } }]);
    expect(await station.ask(routes.templates, { params: lab, query: { signature: 'something else' } })).toEqual([]);
  });

  it('gives a refusal with code and next step, and nothing is lost', async () => {
    const bytes = new TextEncoder().encode('not a table at all') as Uint8Array<ArrayBuffer>;
    const upload = await station.ask(routes.upload, { params: lab, query: { name: 'letter.txt' }, bytes });
    const before = await station.ask(routes.sessions, { params: lab });
    await expect(station.ask(routes.import, { params: lab, body: request(upload.id) })).rejects.toMatchObject({
      problem: { status: 422, code: expect.stringMatching(/^(text|format)-/), next: expect.stringMatching(/\w/) },
    });
    expect(await station.ask(routes.sessions, { params: lab })).toEqual(before);
  });
});

describe('a decision on a trial', () => {
  it('moves the onset with name and reason, can be undone and done again, and keeps every result', async () => {
    const { upload } = await send(6);
    const outcome = await station.ask(routes.import, { params: lab, body: request(upload.id) });
    const params = { ...lab, id: outcome.trials[0]?.id as string };
    const before = await station.ask(routes.trial, { params });
    const automatic = before.result.onset.ok ? before.result.onset.value.index : 0;
    const moved = await station.ask(routes.decide, {
      params,
      body: { kind: 'onset-by-hand', index: automatic + 7, reason: 'a step before the rise', by: 'Dr Example' },
    });
    expect(moved.result.onset).toMatchObject({
      ok: true,
      value: {
        index: automatic + 7,
        byHand: { by: 'Dr Example', reason: 'a step before the rise', automatic: { ok: true, value: automatic } },
      },
    });
    expect(moved.undo?.words).toBe('onset placed by hand');
    const back = await station.ask(routes.undo, { params, body: { by: 'Dr Example' } });
    expect(back.result.metrics).toEqual(before.result.metrics);
    const again = await station.ask(routes.redo, { params, body: { by: 'Dr Example' } });
    expect(again.result.onset).toMatchObject({ ok: true, value: { index: automatic + 7 } });
    expect(again.decisions.map((one) => one.kind)).toEqual(['onset-by-hand', 'undo', 'redo']);
    expect(again.decisions.every((one) => one.by === 'Dr Example')).toBe(true);
    await expect(station.ask(routes.redo, { params, body: { by: 'Dr Example' } })).rejects.toMatchObject({
      problem: { status: 409, code: 'nothing-to-undo' },
    });
  });

  it('excludes, restores and overrules, and the session list follows', async () => {
    const { upload } = await send(7);
    const outcome = await station.ask(routes.import, { params: lab, body: request(upload.id) });
    const params = { ...lab, id: outcome.trials[0]?.id as string };
    const row = async () =>
      (await station.ask(routes.session, { params: { ...lab, id: outcome.session as string } })).rows[0]?.state;
    await station.ask(routes.decide, {
      params,
      body: { kind: 'exclude', category: 'athlete', reason: 'felt the back', by: 'Dr Example' },
    });
    expect(await row()).toBe('excluded');
    await station.ask(routes.decide, { params, body: { kind: 'restore', reason: 'wrong row', by: 'Dr Example' } });
    expect(await row()).toBe(outcome.trials[0]?.verdict);
    await station.ask(routes.decide, {
      params,
      body: { kind: 'overrule-counts', reason: 'watched on video', by: 'Dr Example' },
    });
    expect(await row()).toBe('overruled');
  });

  it('refuses an onset outside the recording', async () => {
    const list = await station.ask(routes.sessions, { params: lab, query: { limit: 1 } });
    const session = await station.ask(routes.session, { params: { ...lab, id: list.rows[0]?.id as string } });
    await expect(
      station.ask(routes.decide, {
        params: { ...lab, id: session.rows[0]?.id as string },
        body: { kind: 'onset-by-hand', index: 10_000_000, reason: 'x', by: 'y' },
      }),
    ).rejects.toMatchObject({ problem: { code: 'onset-outside' } });
  });

  it('leaves an audit trail that is intact and names nobody', async () => {
    const audit = await station.ask(routes.audit, { params: lab });
    expect(audit).toMatchObject({ intact: true, problems: [] });
    expect(audit.total).toBeGreaterThan(10);
    expect(JSON.stringify(audit.entries.map((one) => one.details))).not.toMatch(/Example|Quist|felt the back/);
  });
});
