import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BatteryView, followRoutes, methodRoutes, routes } from '@sthene/contract';
import {
  type JumpSpec,
  recordingOf,
  recordingOfJumps,
  simulateJump,
  simulatePull,
  type UtcInstant,
} from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { stationActor } from '../src/labs/open-lab.ts';
import { withLab } from './filled-lab.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const lab = { lab: 'lab' as const };
const by = 'Rowan';
const people = ['Nele', 'Imre', 'Pia', 'Tove'] as const;
type Name = (typeof people)[number];
const ids = new Map<Name, string>();
/** Sessions whose setup was written down before the jumps came. */
const swung = new Map<string, string>();
let station: StationUnderTest;

beforeAll(async () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-ratios-'));
  await withLab(folder, async ({ store, gravity }) => {
    for (const [i, givenName] of people.entries()) {
      const { id } = await store.people.add({ code: `FW2${i}`, givenName, familyName: 'Quist' }, stationActor);
      ids.set(givenName, id);
    }
    for (const [test, arms] of [
      ['countermovement-jump', 'arm swing'],
      ['squat-jump', 'hands on hips'],
    ] as const) {
      const { id } = await store.sessions.add(
        {
          ...{ person: ids.get('Nele') as string, protocol: { id: test, version: 1 }, setup: { arms }, gravity },
          startedAt: '2026-03-02T09:00:00.000Z' as UtcInstant,
        },
        stationActor,
      );
      swung.set(test, id);
    }
  });
  station = await stationUnderTest(folder);
}, 120_000);
afterAll(() => station?.end());

interface Sent {
  readonly test: string;
  readonly at: string;
  readonly method?: string;
  readonly session?: string | undefined;
}

async function send(whose: Name, recording: ReturnType<typeof recordingOfJumps>, { test, at, ...more }: Sent) {
  const write = formatOf('text')?.write;
  if (write === undefined) throw new Error('the text format is not listed');
  const { id: upload } = await station.ask(routes.upload, {
    params: lab,
    query: { name: `${test}-${at}.csv` },
    bytes: new Uint8Array(await write(recording)),
  });
  const inputs = (['left', 'right'] as const).map((part, index) => ({
    from: { kind: 'channel' as const, index },
    part,
  }));
  return station.ask(routes.import, {
    params: lab,
    body: {
      ...{ upload, mapping: { reading: {}, inputs, test, efforts: 'all' as const }, ...more },
      ...{ person: { id: ids.get(whose) as string }, startedAt: at, onDuplicate: 'skip' as const, by },
    },
  });
}
const jumps = (spec: JumpSpec, seed: number) =>
  recordingOfJumps([0, 1].map((i) => simulateJump({ plateNoise: 0.5, ...spec }, seed + i)));
const ratioOf = async (whose: Name, id: BatteryView['ratios'][number]['id']) => {
  const view = await station.ask(followRoutes.battery, {
    params: { ...lab, id: ids.get(whose) as string },
    query: {},
  });
  return view.ratios.find((one) => one.id === id);
};

it('says that the arms were not held alike', async () => {
  const at = '2026-03-02T09:00:00.000Z';
  for (const [test, kind, seed] of [
    ['countermovement-jump', 'countermovement', 1],
    ['squat-jump', 'squat', 11],
  ] as const)
    await send('Nele', jumps({ kind }, seed), { test, at, session: swung.get(test) });
  const first = await ratioOf('Nele', 'eccentric_utilisation_ratio');
  expect(first?.current?.cautions).toContain('arms-differ');
  expect(first?.current?.cautions).not.toContain('days-apart');
  expect(first?.current?.cautions).not.toContain('dip');
}, 60_000);

it('uses the squat jump where there is no other, and says so', async () => {
  await send('Imre', jumps({ kind: 'squat' }, 21), { test: 'squat-jump', at: '2026-03-02T09:00:00.000Z' });
  const pull = recordingOf(simulatePull({ bodyWeight: 706 }, 25));
  await send('Imre', pull, { test: 'imtp', at: '2026-03-03T09:00:00.000Z' });
  const index = await ratioOf('Imre', 'dynamic_strength_index');
  expect(index?.current?.components[0]).toMatchObject({ test: 'squat-jump', metric: 'propulsion_peak_force' });
  expect(index?.current?.cautions).toEqual(expect.arrayContaining(['squat-jump-used', 'days-apart']));
  await send('Imre', jumps({}, 31), { test: 'countermovement-jump', at: '2026-03-03T10:00:00.000Z' });
  const other = await ratioOf('Imre', 'dynamic_strength_index');
  expect(other?.current?.components[0]?.test).toBe('countermovement-jump');
  expect(other?.current?.cautions).not.toContain('squat-jump-used');
}, 60_000);

it('does not count a squat jump that dipped; one that a person took back in is said to have', async () => {
  const at = '2026-03-02T09:00:00.000Z';
  await send('Pia', jumps({}, 41), { test: 'countermovement-jump', at });
  const { trials } = await send('Pia', jumps({ kind: 'squat', dip: 0.06 }, 51), { test: 'squat-jump', at });
  expect(await ratioOf('Pia', 'eccentric_utilisation_ratio')).toMatchObject({
    lack: { reason: 'no-value', tests: ['squat-jump'] },
  });
  for (const { id = '' } of trials)
    await station.ask(routes.decide, {
      params: { ...lab, id },
      body: { kind: 'overrule-counts', reason: 'Seen on film.', by },
    });
  expect((await ratioOf('Pia', 'eccentric_utilisation_ratio'))?.current?.cautions).toContain('dip');
}, 60_000);

it('makes no ratio of one measure judged by two methods, and says of a newer test why it has none', async () => {
  const squat = { test: 'squat-jump', at: '2026-03-02T09:30:00.000Z' };
  await send('Tove', jumps({}, 61), { test: 'countermovement-jump', at: '2026-03-02T09:00:00.000Z' });
  await send('Tove', jumps({ kind: 'squat' }, 71), { ...squat, method: 'jumps-10' });
  expect(await ratioOf('Tove', 'eccentric_utilisation_ratio')).toMatchObject({
    lack: { reason: 'other-method', tests: ['countermovement-jump', 'squat-jump'] },
    history: [],
  });
  // A strength index has two measures, and asks for no one method.
  await send('Tove', recordingOf(simulatePull({ bodyWeight: 706 }, 75)), {
    test: 'imtp',
    at: '2026-03-02T10:00:00.000Z',
  });
  expect((await ratioOf('Tove', 'dynamic_strength_index'))?.current?.value).toBeGreaterThan(0);
  // Two visits of one method give a ratio; a later pair of two methods stays newer, for that reason.
  await send('Tove', jumps({}, 81), { test: 'countermovement-jump', at: '2026-05-04T09:00:00.000Z' });
  await send('Tove', jumps({ kind: 'squat' }, 91), { test: 'squat-jump', at: '2026-05-04T09:30:00.000Z' });
  await send('Tove', jumps({}, 101), { test: 'countermovement-jump', at: '2026-06-08T09:00:00.000Z' });
  await send('Tove', jumps({ kind: 'squat' }, 111), {
    ...{ test: 'squat-jump', at: '2026-06-08T09:30:00.000Z' },
    method: 'jumps-10',
  });
  const view = await ratioOf('Tove', 'eccentric_utilisation_ratio');
  expect(view?.current?.at).toBe('2026-05-04T09:30:00.000Z');
  expect(view?.newer.map(({ test, reason }) => [test, reason])).toEqual([
    ['countermovement-jump', 'other-method'],
    ['squat-jump', 'other-method'],
  ]);
  await send('Tove', jumps({}, 121), { test: 'countermovement-jump', at: '2026-08-10T09:00:00.000Z' });
  const [newer] = (await ratioOf('Tove', 'eccentric_utilisation_ratio'))?.newer ?? [];
  expect(newer).toMatchObject({ at: '2026-08-10T09:00:00.000Z', reason: 'too-far-apart' });
}, 120_000);

it('a page of a ratio says what both tests were measured with, and is among those a recomputation is held against', async () => {
  const query = 'person=FW21&test=imtp&metric=dynamic_strength_index';
  const page = await fetch(`${station.address}api/labs/lab/reports/athlete?${query}&as=html`);
  expect(page.status).toBe(200);
  const said = await page.text();
  const { current } = (await ratioOf('Imre', 'dynamic_strength_index')) ?? {};
  expect(said).toContain(current?.value.toFixed(2));
  const { id: trial } = await firstTrial(current?.components[0]?.session as string);
  const { method } = (await station.ask(routes.trial, { params: { ...lab, id: trial } })).result;
  // The jump's method stands beside the pull's.
  expect(said).toContain(method.sha256.slice(0, 8));
  // A preview is not handed out; a file is.
  expect((await fetch(`${station.address}api/labs/lab/reports/athlete?${query}&as=pdf`)).status).toBe(200);
  const r = methodRoutes;
  const run = await station.ask(r.startRecomputation, { params: lab, body: { method: 'fixed-75', by } });
  for (;;) {
    const { state } = await station.ask(r.recomputation, { params: { ...lab, id: run.id } });
    if (state !== 'running') break;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  const reports = await station.ask(r.recomputationReports, { params: { ...lab, id: run.id } });
  expect(reports.pages).toBe(1);
}, 120_000);

async function firstTrial(session: string): Promise<{ readonly id: string }> {
  const [row] = (await station.ask(routes.session, { params: { ...lab, id: session } })).rows;
  if (row === undefined) throw new Error('no trial');
  return row;
}
