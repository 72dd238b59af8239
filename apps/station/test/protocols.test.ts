import { ApiProblem, liveRoutes, protocolRoutes, routes } from '@sthene/contract';
import { builtInProtocols, type ProtocolDocument, protocolReference, usualProtocol } from '@sthene/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { by, inLab } from './live/set-up.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const r = protocolRoutes;
const draft = (more: Partial<ProtocolDocument> = {}) =>
  ({ ...usualProtocol('imtp'), name: 'Boathouse pull', ...more }) as unknown as Record<string, unknown>;

describe('protocols over the wire', () => {
  let station: StationUnderTest;
  let id = '';
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: {} });
  });
  afterAll(() => station?.end());

  const refusal = async (asking: Promise<unknown>) => {
    const error = await asking.then(
      () => undefined,
      (one: unknown) => one,
    );
    return error instanceof ApiProblem ? [error.problem.status, error.problem.code] : error;
  };
  const show = (of: string) => station.ask(r.protocol, { params: { ...inLab, id: of } });

  it('offers the built-in ones, each under its short id and its hash', async () => {
    const rows = await station.ask(r.protocols, { params: inLab });
    expect(rows.map((row) => row.id)).toEqual(builtInProtocols.all.map((one) => one.id));
    expect(rows[0]).toMatchObject({ name: 'Mid-thigh pull, standard', version: 1, builtIn: true, sessions: 0 });
    expect(await show(rows[0]?.sha256 ?? '')).toEqual(await show('imtp'));
  });

  it('makes one, adds a version with a note, and keeps the first as it was', async () => {
    const made = await station.ask(r.createProtocol, { params: inLab, body: { document: draft(), by } });
    id = made.id;
    const [first] = made.versions;
    expect(first).toMatchObject({ document: { version: 1, name: 'Boathouse pull' }, by, sessions: 0 });
    const next = draft({ rest: { minimum: 90, maximum: 600 }, note: 'Less waiting' });
    const after = first?.sha256 ?? '';
    const both = await station.ask(r.succeedProtocol, {
      params: { ...inLab, id },
      body: { document: next, after, by: 'Linnet' },
    });
    expect(both.versions.map(({ document, by: who }) => [document.version, document.note, who])).toEqual([
      [2, 'Less waiting', 'Linnet'],
      [1, '', by],
    ]);
    expect(both.versions[0]?.document.succeeds).toEqual({ version: 1, sha256: after });
    expect(both.versions[1]).toEqual(first);
    expect(
      await refusal(station.ask(r.succeedProtocol, { params: { ...inLab, id }, body: { document: next, after, by } })),
    ).toEqual([409, 'protocol-changed-meanwhile']);
  });

  it('refuses what is none, naming every fault, and changes nothing', async () => {
    const wrong = draft({ rest: { minimum: 5, maximum: 600 }, cue: { words: '', voice: 'tone', count: 3, delay: 1 } });
    const asked = station.ask(r.createProtocol, { params: inLab, body: { document: { ...wrong, name: 'Wrong' }, by } });
    const error = (await asked.catch((one: unknown) => one)) as ApiProblem;
    expect(error.problem).toMatchObject({ status: 422, code: 'protocol-invalid' });
    expect(error.problem.detail).toContain('rest.minimum');
    expect(error.problem.detail).toContain('cue.words');
    expect((await station.ask(r.protocols, { params: inLab })).some(({ name }) => name === 'Wrong')).toBe(false);
    const squat = { ...draft(), test: usualProtocol('isometric-squat').test };
    const after = (await show(id)).versions[0]?.sha256 ?? '';
    expect(
      await refusal(station.ask(r.succeedProtocol, { params: { ...inLab, id }, body: { document: squat, after, by } })),
    ).toEqual([422, 'protocol-test-fixed']);
  });

  it('leaves the built-in ones alone, their names too', async () => {
    const body = { document: draft(), after: 'x', by };
    expect(await refusal(station.ask(r.succeedProtocol, { params: { ...inLab, id: 'imtp' }, body }))).toEqual([
      409,
      'protocol-built-in',
    ]);
    expect(
      await refusal(station.ask(r.archiveProtocol, { params: { ...inLab, id: 'imtp' }, body: { archived: true, by } })),
    ).toEqual([409, 'protocol-built-in']);
    const same = { ...draft(), name: 'mid-thigh pull, standard' };
    expect(await refusal(station.ask(r.createProtocol, { params: inLab, body: { document: same, by } }))).toEqual([
      409,
      'name-taken',
    ]);
    expect(
      await refusal(
        station.ask(r.createProtocol, {
          params: inLab,
          body: { document: draft({ note: 'again', localRules: ['x'] }), by },
        }),
      ),
    ).toEqual([409, 'name-taken']);
  });

  it('duplicates, archives and restores', async () => {
    const copy = await station.ask(r.duplicateProtocol, {
      params: { ...inLab, id: 'imtp-explosive' },
      body: { name: 'Fast one', by },
    });
    expect(copy.versions).toMatchObject([
      { document: { version: 1, note: 'From "Mid-thigh pull, short and fast", version 1.' } },
    ]);
    const archived = await station.ask(r.archiveProtocol, {
      params: { ...inLab, id: copy.id },
      body: { archived: true, by },
    });
    expect(archived.archived).toBe(true);
    const back = await station.ask(r.archiveProtocol, {
      params: { ...inLab, id: copy.id },
      body: { archived: false, by },
    });
    expect(back.archived).toBe(false);
  });

  it('shares a version as a file that another lab takes in as it is, and the next one after it', async () => {
    const other = await stationUnderTest();
    try {
      await other.ask(routes.createLab, { params: inLab, body: {} });
      const versions = (await show(id)).versions;
      for (const { sha256 } of [...versions].reverse()) {
        const answer = await fetch(`${station.address}api/labs/lab/protocols/${sha256}/file`);
        expect(answer.headers.get('content-disposition')).toMatch(
          /attachment; filename="boathouse-pull-\d\.protocol\.json"/,
        );
        const document = (await answer.json()) as Record<string, unknown>;
        await other.ask(r.importProtocol, { params: inLab, body: { document, by } });
        expect(await refusal(other.ask(r.importProtocol, { params: inLab, body: { document, by } }))).toEqual([
          409,
          'protocol-there-already',
        ]);
      }
      const there = await other.ask(r.protocols, { params: inLab });
      const taken = there.find(({ builtIn }) => !builtIn);
      expect(taken).toMatchObject({ name: 'Boathouse pull', version: 2, versions: 2, sha256: versions[0]?.sha256 });
    } finally {
      await other.end();
    }
  });

  it('names who did what in the audit trail, and the chain is whole', async () => {
    const audit = await station.ask(routes.audit, { params: inLab });
    expect(audit).toMatchObject({ intact: true, problems: [] });
    const acts = audit.entries
      .filter(({ action }) => action.startsWith('protocol.'))
      .map(({ action, who }) => `${action} ${who}`);
    for (const act of [
      'protocol.add Rowan',
      'protocol.version Linnet',
      'protocol.archive Rowan',
      'protocol.restore Rowan',
    ])
      expect(acts).toContain(act);
  });

  it('is what a day is planned by: a version by its hash, which stays when the protocol goes on', async () => {
    const [newest] = (await show(id)).versions;
    const day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [{ protocol: newest?.sha256 ?? '' }, 'isometric-squat'], rigs: [], by },
    });
    expect(day.tests[0]).toMatchObject({ test: 'imtp', protocol: newest?.sha256, rest: { minimum: 90, maximum: 600 } });
    expect(day.tests[1]?.protocol).toBe(protocolReference(usualProtocol('isometric-squat')).sha256);
    const next = { ...newest?.document, rest: { minimum: 100, maximum: 600 } } as Record<string, unknown>;
    await station.ask(r.succeedProtocol, {
      params: { ...inLab, id },
      body: { document: next, after: newest?.sha256 ?? '', by },
    });
    const again = await station.ask(liveRoutes.day, { params: { ...inLab, id: day.id } });
    expect(again.protocols?.[0]).toMatchObject({ sha256: newest?.sha256, document: { version: 2 } });
    const twice = { date: '2026-03-03', tests: [{ protocol: newest?.sha256 ?? '' }, 'imtp'], rigs: [], by };
    expect(await refusal(station.ask(liveRoutes.createDay, { params: inLab, body: twice }))).toEqual([
      400,
      'request-invalid',
    ]);
    const unknown = { ...twice, tests: [{ protocol: 'ab'.repeat(32) }] };
    expect(await refusal(station.ask(liveRoutes.createDay, { params: inLab, body: unknown }))).toEqual([
      404,
      'not-found',
    ]);
  });
});
