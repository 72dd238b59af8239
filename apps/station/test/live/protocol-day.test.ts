import { type Day, liveRoutes, protocolRoutes, routes } from '@sthene/contract';
import { protocolReference, usualProtocol, validateProtocol } from '@sthene/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { addPeople, addRig, by, inLab, virtual } from './set-up.ts';

const usual = usualProtocol('imtp');
const own = {
  ...usual,
  name: 'Boathouse short',
  warmUp: { steps: ['Row easily for 5 min'], confirm: true, efforts: [], rest: 0 },
  maximal: { minimum: 1, planned: 1, maximum: 2 },
  rest: { minimum: 20, maximum: 600 },
  cue: { words: 'Drive.', voice: 'spoken' as const, count: 2, delay: 0 },
  checks: { gap: { use: false } },
  setupFields: [{ id: 'bar_hole', title: 'Hole of the bar', kind: 'number' as const, required: true }],
  localRules: ['Two people stand at the rig.'],
};

describe('a day run by a protocol of the lab', () => {
  let station: StationUnderTest;
  let operator: LiveClient;
  let day: Day;
  let protocol = '';
  let sha256 = '';
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const [person = ''] = await addPeople(station);
    const rig = await addRig(station, 'A', virtual(10));
    expect(validateProtocol(own)).toMatchObject({ ok: true });
    const document = own as unknown as Record<string, unknown>;
    const made = await station.ask(protocolRoutes.createProtocol, { params: inLab, body: { document, by } });
    protocol = made.id;
    sha256 = made.versions[0]?.sha256 ?? '';
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [{ protocol: sha256 }], rigs: [rig], people: [person], handsFree: true, by },
    });
  });
  afterAll(async () => {
    operator?.close();
    await station?.end();
  });

  const entry = () => day.entries[0];
  const change = async (part: object) => {
    day = await station.ask(liveRoutes.changeEntry, {
      params: { ...inLab, id: entry()?.id ?? '' },
      body: { ...part, by } as never,
    });
  };

  it('asks whether the warm-up was done, and for the setup fields of the protocol', async () => {
    expect(day.cautions[0]).toBe('Two people stand at the rig.');
    expect(day.protocols?.[0]?.document.warmUp.steps).toEqual(['Row easily for 5 min']);
    expect(entry()).toMatchObject({ allowed: 'after-answers', setupMissing: ['bar_hole'] });
    expect(entry()?.gates).toContainEqual(expect.objectContaining({ kind: 'warm-up', effect: 'asks' }));
    expect(entry()?.remaining).toEqual([{ kind: 'maximal' }]);
    const answers = { pain: false, injury: false, screened: true, consent: true, warmedUp: true, note: '' };
    await change({ readiness: answers });
    await change({ setup: { bar_hole: 4 } });
    expect(entry()).toMatchObject({ allowed: 'maximal' });
    expect(entry()?.setupMissing).toBeUndefined();
  });

  it('counts, speaks and says the cue as the protocol has it, and ends after its efforts', {
    timeout: 90_000,
  }, async () => {
    operator = await LiveClient.join(station.address, 'operator', 'tablet-1');
    await operator.probe();
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    await operator.until(() => operator.of('verdict').length > 0, 80);
    // The verdict is told at once, the effort is kept a moment later; the day says when nothing is left to do.
    await operator.until(() => operator.of('day').at(-1)?.day?.entries[0]?.state === 'done', 30);
    const cues = operator.of('cue').filter(({ sound }) => ['three', 'two', 'one', 'go'].includes(sound));
    const go = cues.findIndex(({ sound }) => sound === 'go');
    expect(cues.slice(Math.max(0, go - 2), go + 1).map(({ sound }) => sound)).toEqual(['two', 'one', 'go']);
    expect(cues.some(({ sound }) => sound === 'three')).toBe(false);
    expect(cues[go]).toMatchObject({ words: 'Drive.', spoken: true });
  });

  it('names the version in the session and the derived method in the result, and again after a decision', async () => {
    const [verdict] = operator.of('verdict').map((one) => one.verdict);
    const session = await station.ask(routes.session, { params: { ...inLab, id: verdict?.session ?? '' } });
    expect(session.ranBy).toEqual({ name: 'Boathouse short', version: 1, sha256 });
    expect(session.setup).toEqual({ bar_hole: 4 });
    const trial = { ...inLab, id: verdict?.trial ?? '' };
    const before = await station.ask(routes.trial, { params: trial });
    expect(before.provenance.method.name).toBe('Sthene standard, with checks.gap off');
    expect(before.result.checks.gap).toBeUndefined();
    const index = before.result.onset.ok ? Math.round(before.result.onset.value.index) + 5 : 0;
    const body = { kind: 'onset-by-hand' as const, index, reason: 'looked at it', by };
    const moved = await station.ask(routes.decide, { params: trial, body });
    expect(moved.provenance.method).toEqual(before.provenance.method);
    const back = await station.ask(routes.undo, { params: trial, body: { by } });
    expect(back.result.onset).toEqual(before.result.onset);
    expect(back.result.method).toEqual(before.result.method);
  });

  it('tells which sessions a version ran, and keeps that when the protocol goes on', async () => {
    const [version] = (await station.ask(protocolRoutes.protocol, { params: { ...inLab, id: protocol } })).versions;
    const document = { ...version?.document, rest: { minimum: 30, maximum: 600 } } as Record<string, unknown>;
    await station.ask(protocolRoutes.succeedProtocol, {
      params: { ...inLab, id: protocol },
      body: { document, after: sha256, by },
    });
    const use = await station.ask(protocolRoutes.protocolUse, { params: { ...inLab, id: protocol } });
    expect(use.map(({ version: number, total }) => [number, total])).toEqual([
      [2, 0],
      [1, 1],
    ]);
    expect(use[1]?.sessions[0]?.person.name).toBe('Wren Alder');
    const rows = await station.ask(protocolRoutes.protocols, { params: inLab });
    expect(rows.find(({ id }) => id === protocol)).toMatchObject({ version: 2, versions: 2, sessions: 1 });
    expect(protocolReference({ ...usual, name: 'x' }).sha256).not.toBe(sha256);
  });
});
