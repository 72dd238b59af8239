import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ApiProblem, methodRoutes, type NearestRequest, routes } from '@sthene/contract';
import { defaultMethod, type Method, methodReference, methodRegistry } from '@sthene/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fillSmallLab, withLab } from './filled-lab.ts';
import { by, inLab } from './live/set-up.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const r = methodRoutes;
const standard = methodReference(defaultMethod).sha256;
const draft = (more: Partial<Method> = {}) =>
  ({ ...structuredClone(defaultMethod), name: 'Boathouse', ...more }) as unknown as Record<string, unknown>;

describe('methods over the wire', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-methods-'));
  let station: StationUnderTest;
  let trials: string[] = [];
  beforeAll(async () => {
    trials = await withLab(folder, (lab) => fillSmallLab(lab, 3));
    station = await stationUnderTest(folder);
  });
  afterAll(() => station?.end());

  const refusal = async (asking: Promise<unknown>) => {
    const error = await asking.then(
      () => undefined,
      (one: unknown) => one,
    );
    return error instanceof ApiProblem ? [error.problem.status, error.problem.code] : error;
  };
  const succeed = (document: Record<string, unknown>, after = standard) =>
    station.ask(r.succeedMethod, { params: inLab, body: { after, document, by } });
  const written = async () => (await station.ask(routes.audit, { params: inLab, query: { limit: 1 } })).total;

  it('makes a method from another, counts its versions, and refuses what is none', async () => {
    const first = await succeed(draft({ onset: { rule: 'five-sd', version: 1 } }));
    expect(first).toMatchObject({ name: 'Boathouse', version: 1, builtIn: false, current: false, variant: false });
    const document = (await station.ask(routes.method, {
      params: { ...inLab, id: first.sha256 },
    })) as unknown as Method;
    const next = { ...document, allometricExponent: 0.5 } as unknown as Record<string, unknown>;
    expect(await succeed(next, first.sha256)).toMatchObject({ name: 'Boathouse', version: 2 });
    expect(await refusal(succeed(draft({ name: 'Other' })))).toEqual([422, 'method-unchanged']);
    expect(await refusal(succeed(draft({ name: 'Five SD', allometricExponent: 0.5 })))).toEqual([
      422,
      'method-name-reserved',
    ]);
    expect(await refusal(succeed(draft({ allometricExponent: 7 })))).toEqual([422, 'method-invalid']);
    expect(await refusal(succeed({ name: 'x' }))).toEqual([422, 'method-invalid']);
    const rows = await station.ask(routes.methods, { params: inLab });
    expect(rows.filter(({ builtIn, variant }) => !builtIn && !variant).map(({ version }) => version)).toEqual([1, 2]);
  });

  it('tries a document that is not kept on a session, and stores nothing', async () => {
    const before = await written();
    const { session } = await station.ask(routes.trial, { params: { ...inLab, id: trials[0] as string } });
    const document = draft({ onset: { rule: 'fixed-newton-75', version: 1 } });
    const body = { document, session: session.id };
    const found = await station.ask(r.previewMethod, { params: inLab, body });
    expect(found.cut).toBe(false);
    expect(found.trials.map(({ trial }) => trial)).toEqual(trials.slice(0, 3));
    const third = found.trials[2];
    const [was, is] = third?.values.force_at_100 ?? [0, 0];
    expect(is).not.toBe(was);
    const kept = await station.ask(routes.trial, { params: { ...inLab, id: trials[2] as string } });
    expect(kept.result.metrics.force_at_100).toMatchObject({ value: was });
    // Sessions run by a protocol of the lab would derive a method; that is not kept either.
    const all = await station.ask(r.previewMethod, { params: inLab, body: { document, sessions: 20 } });
    expect(all.trials).toHaveLength(9);
    expect(await written()).toBe(before);
    expect(await refusal(station.ask(r.previewMethod, { params: inLab, body: { document: { name: 1 } } }))).toEqual([
      422,
      'method-invalid',
    ]);
  });

  it('finds the method that made a table, by trial, by file, and by athlete and day', async () => {
    const { trials: judged } = await station.ask(r.previewMethod, {
      params: inLab,
      body: { method: 'fixed-75', sessions: 20 },
    });
    const value = (trial: string, metric: string) =>
      judged.find((one) => one.trial === trial)?.values[metric]?.[1] as number;
    // The hand-placed onset and the dip stay out: they are no other lab's trials.
    const shared = trials.slice(3);
    const nearest = (text: string, columns: NearestRequest['columns'], unit?: string) =>
      station.ask(r.nearestMethod, {
        params: inLab,
        body: {
          text,
          columns,
          values: [{ column: 'f100', metric: 'force_at_100', ...(unit === undefined ? {} : { unit }) }],
        },
      });
    const rows = shared.map((id) => `${id},${value(id, 'force_at_100').toFixed(2)}`);
    const found = await nearest(`trial,f100\n${rows.join('\n')}\n${'no-such-trial'},100\n${trials[3]},many\n`, {
      trial: 'trial',
    });
    expect(found).toMatchObject({ lines: 8, matched: 6 });
    expect(found.unmatched.map(({ line }) => line)).toEqual([8, 9]);
    const fixed = methodReference(methodRegistry.get('fixed-75')?.method as Method).sha256;
    // The method itself, and the method in force with its onset rule, give the same.
    expect(
      found.ranked
        .slice(0, 2)
        .map(({ id }) => id)
        .sort(),
    ).toEqual([fixed, 'fixed-newton-75'].sort());
    expect(found.ranked[0]?.distance).toBeLessThan(0.001);
    expect(found.ranked.find(({ id }) => id === standard)?.distance).toBeGreaterThan(1);

    const files = await withLab(folder, async ({ store }) =>
      Promise.all(
        shared.map(async (id) => {
          const { recording = '' } = (await store.trials.get(id)) ?? {};
          const name = (await store.recordings.get(recording))?.fileName;
          return `${name};${(value(id, 'force_at_100') / 1000).toFixed(6).replace('.', ',')}`;
        }),
      ),
    );
    const byFile = await nearest(`file;f100\n${files.join('\n')}`, { file: 'file' }, 'kN');
    expect(byFile).toMatchObject({ matched: 6 });
    expect(byFile.ranked[0]?.distance).toBeLessThan(0.001);

    const who = await Promise.all(shared.map((id) => station.ask(routes.trial, { params: { ...inLab, id } })));
    const lines = who.map(
      ({ person, session, order, id }) =>
        `${person.code},${session.startedAt.slice(0, 10)},${order},${value(id, 'force_at_100')}`,
    );
    const columns = { person: 'who', date: 'day', order: 'nr' };
    const byPerson = await nearest(`who,day,nr,f100\n${lines.join('\n')}`, columns);
    expect(byPerson).toMatchObject({ matched: 6 });
    const { order: _, ...without } = columns;
    expect(await nearest(`who,day,nr,f100\n${lines.join('\n')}`, without)).toMatchObject({ matched: 0 });
    expect(await refusal(nearest('trial,f100\n1,2', { trial: 'trial' }, 's'))).toEqual([422, 'unit-unknown']);
    expect(await refusal(nearest('trial,x\n1,2', { trial: 'trial' }))).toEqual([422, 'table-column']);
  });
});
