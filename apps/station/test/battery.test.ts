import { type BatteryView, followRoutes, receivedRoutes, routes } from '@sthene/contract';
import { type JumpSpec, recordingOf, recordingOfJumps, simulateJump, simulatePull } from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../../../tests/example-lab.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

describe('ratios of the example', { timeout: 300_000 }, () => {
  let station: StationUnderTest;
  let people: Map<string, string>;
  const example = { lab: 'example' as const };
  beforeAll(async () => {
    station = await stationUnderTest(await exampleData());
    people = new Map((await station.ask(routes.people, { params: example })).map(({ code, id }) => [code, id]));
  }, 300_000);
  afterAll(() => station.end());
  const of = (code: string, query = {}): Promise<BatteryView> =>
    station.ask(followRoutes.battery, { params: { ...example, id: people.get(code) as string }, query });
  const ratioOf = (view: BatteryView, id: BatteryView['ratios'][number]['id']) => {
    const found = view.ratios.find((one) => one.id === id);
    if (found === undefined) throw new Error(id);
    return found;
  };

  it('dynamic strength index: both sides, gross, with a propagated error', async () => {
    const view = await of('FW01');
    const { current, history, limits } = ratioOf(view, 'dynamic_strength_index');
    if (current?.error === undefined || current.interval === undefined) throw new Error('no index');
    const [jump, pull] = current.components;
    if (jump?.error === undefined || pull?.error === undefined) throw new Error('a side is missing');
    expect([jump.metric, pull.metric]).toEqual(['propulsion_peak_force', 'peak_force']);
    expect(current.value).toBeCloseTo(jump.value / pull.value, 12);
    // CV^2 = CV_jump^2 + CV_pull^2, the rule for a quotient of independent values (GUM, JCGM 100:2008, 5.1.6).
    expect(current.error / current.value).toBeCloseTo(Math.hypot(jump.error / jump.value, pull.error / pull.value), 12);
    expect(current.interval.high - current.value).toBeCloseTo(1.959964 * current.error, 6);
    expect(current.word === 'undecided').toBe(
      limits.some((limit) => current.interval && limit > current.interval.low && limit < current.interval.high) ||
        current.because === 'isometric-low',
    );
    // The values are those of the sessions' own pages.
    const session = await station.ask(routes.session, { params: { ...example, id: pull.session } });
    expect(session.peakForce?.value).toBeCloseTo(pull.value, 6);
    expect(history.length).toBeGreaterThan(2);
    expect(history.at(-1)).toMatchObject({ at: current.at, value: current.value });
  });

  it('eccentric utilisation is undecided where the countermovement adds nothing that is sure', async () => {
    // Verhoeven jumps as high from the squat (a ratio of 0.99 in the simulation), Nakashima 13 % less high.
    const slow = ratioOf(await of('FW05'), 'eccentric_utilisation_ratio').current;
    expect(slow).toMatchObject({ word: 'undecided', because: 'interval-crosses' });
    expect(Math.abs((slow?.value ?? 0) - 0.99)).toBeLessThan(0.05);
    // His squat jump that dipped does not count.
    expect(slow?.components[1]).toMatchObject({ test: 'squat-jump', n: 2, maximal: 3 });
    const elastic = ratioOf(await of('FW03'), 'eccentric_utilisation_ratio').current;
    expect(elastic?.word).toBe('gain');
    expect(Math.abs((elastic?.value ?? 0) - 1.13)).toBeLessThan(0.06);
  });

  it('bilateral index from the pull on both legs and on each, net of body weight', async () => {
    const view = await of('FW06');
    const { current } = ratioOf(view, 'bilateral_index');
    const [both, left, right] = current?.components ?? [];
    expect([both?.metric, left?.metric, right?.metric]).toEqual(Array(3).fill('peak_force_net'));
    expect(current?.value).toBeCloseTo(100 * ((both?.value ?? 0) / ((left?.value ?? 0) + (right?.value ?? 0)) - 1), 10);
    // Each leg alone pulls 0.62 of both in the simulation: 1 / 1.24 - 1 is -19 %.
    expect(current?.word).toBe('deficit');
    expect(ratioOf(view, 'dynamic_strength_index')).toMatchObject({
      lack: { reason: 'test-missing', tests: ['countermovement-jump'], received: 0 },
      history: [],
    });
  });

  it('looks no further than a day, and says how far apart tests are', async () => {
    const before = await of('FW06', { on: '2023-12-01' });
    expect(ratioOf(before, 'bilateral_index').current?.at.slice(0, 10)).toBe('2023-10-14');
    const young = await of('FW10', { on: '2026-03-27' });
    expect(ratioOf(young, 'dynamic_strength_index').lack?.reason).toBe('test-missing');
  });

  it('force-velocity profile from the loads of the day; the push-off from the plates or as given', async () => {
    const { current, history } = (await of('FW01')).profile;
    if (current?.line === undefined) throw new Error('no profile');
    const { line, points } = current;
    expect(points.map(({ load }) => load)).toEqual([0, 20, 40, 60]);
    expect(line.r2).toBeGreaterThan(0.95);
    expect(line.accepted).toBe(true);
    expect(line.powerMax).toBeCloseTo((line.f0 * line.v0) / 4, 6);
    expect(current.pushOffFrom).toBe('plates');
    expect(history).toHaveLength(1);
    const given = (await of('FW01', { pushOff: 40 })).profile.current;
    expect(given).toMatchObject({ pushOff: 0.4, pushOffFrom: 'given' });
    // Samozino 2008: v = sqrt(g h / 2) does not depend on the way.
    expect(given?.points[0]?.velocity).toBeCloseTo(points[0]?.velocity ?? 0, 12);
    expect((await of('FW06')).profile.lack).toMatchObject({ reason: 'no-loads', needed: 4 });
  });

  it('is followed like a value: squad table with n and error, athlete page with noise', async () => {
    const query = { test: 'imtp', metric: 'dynamic_strength_index' };
    const table = await station.ask(routes.squadTable, { params: example, query });
    expect(table.metric).toMatchObject({ id: 'dynamic_strength_index', unit: '1', better: 'neither' });
    const row = table.rows.find(({ person }) => person.code === 'FW01');
    const { current } = ratioOf(await of('FW01'), 'dynamic_strength_index');
    expect(row?.value?.value).toBeCloseTo(current?.value ?? 0, 12);
    expect(row?.value).toMatchObject({ session: current?.components[1]?.session, n: 2 });
    expect(row?.error).toBeGreaterThan(0);
    expect(table.metrics.map(({ id }) => id)).toContain('dynamic_strength_index');
    const athlete = await station.ask(routes.athlete, {
      params: { ...example, id: people.get('FW01') as string },
      query,
    });
    expect(athlete.metric.id).toBe('dynamic_strength_index');
    expect(athlete.sessions).toHaveLength(ratioOf(await of('FW01'), 'dynamic_strength_index').history.length);
    const other = await station.ask(routes.athlete, {
      params: { ...example, id: people.get('FW06') as string },
      query: { ...query, test: 'isometric-squat' },
    });
    expect(other.metric.id).toBe('peak_force');
  });

  it('names the newest value of each test, and refuses what is no athlete', async () => {
    const view = await of('FW01');
    expect(view.tests.map(({ test }) => test).sort()).toEqual(['countermovement-jump', 'imtp', 'squat-jump']);
    await expect(
      station.ask(followRoutes.battery, { params: { ...example, id: 'nobody' }, query: {} }),
    ).rejects.toMatchObject({ problem: { code: 'not-found' } });
    await expect(
      station.ask(followRoutes.battery, {
        params: { ...example, id: people.get('FW01') as string },
        query: { apart: -1 },
      }),
    ).rejects.toMatchObject({ problem: { status: 400 } });
  });
});

describe('why there is no ratio', { timeout: 120_000 }, () => {
  let station: StationUnderTest;
  const lab = { lab: 'lab' as const };
  let person: string;
  const by = 'Rowan';
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: lab, body: { name: 'Boathouse' } });
    person = (await station.ask(routes.createPerson, { params: lab, body: { givenName: 'Nele', familyName: 'Quist' } }))
      .id;
  });
  afterAll(() => station.end());

  async function send(
    recording: Parameters<NonNullable<ReturnType<typeof written>>>[0],
    test: string,
    startedAt: string,
    whose = person,
  ) {
    const bytes = new Uint8Array(await written()(recording));
    const { id: upload } = await station.ask(routes.upload, {
      params: lab,
      query: { name: `${test}-${startedAt}.csv` },
      bytes,
    });
    return station.ask(routes.import, {
      params: lab,
      body: {
        upload,
        mapping: {
          reading: {},
          inputs: [
            { from: { kind: 'channel' as const, index: 0 }, part: 'left' as const },
            { from: { kind: 'channel' as const, index: 1 }, part: 'right' as const },
          ],
          ...{ test, efforts: 'all' as const },
        },
        person: { id: whose },
        startedAt,
        onDuplicate: 'skip' as const,
        by,
      } as never,
    });
  }
  const written = () => {
    const write = formatOf('text')?.write;
    if (write === undefined) throw new Error('the text format is not listed');
    return write;
  };
  const jumps = (spec: JumpSpec, seed: number) =>
    recordingOfJumps([0, 1].map((i) => simulateJump({ plateNoise: 0.5, ...spec }, seed + i)));
  const index = async (query = {}) => {
    const view = await station.ask(followRoutes.battery, { params: { ...lab, id: person }, query });
    return view.ratios[0] as BatteryView['ratios'][number];
  };

  it('a test is missing, then lies too far away, then comes near', async () => {
    await send(jumps({ height: 0.35 }, 1), 'countermovement-jump', '2026-02-01T09:00:00.000Z');
    expect(await index()).toMatchObject({ lack: { reason: 'test-missing', tests: ['imtp'] } });
    await send(recordingOf(simulatePull({ bodyWeight: 706 }, 5)), 'imtp', '2026-03-01T09:00:00.000Z');
    expect(await index()).toMatchObject({ lack: { reason: 'too-far-apart', days: 28 }, history: [], newer: [] });
    const wide = await index({ apart: 28 });
    expect(wide.current).toMatchObject({ days: 28, cautions: ['first-session', 'days-apart', 'error-of-trials'] });
    // One pull alone has no spread: no error, no word.
    expect(wide.current).toMatchObject({ word: 'undecided', because: 'no-error' });
    expect(wide.current?.interval).toBeUndefined();
    await send(jumps({ height: 0.36 }, 11), 'countermovement-jump', '2026-04-20T09:00:00.000Z');
    const newer = await index({ apart: 28 });
    expect(newer.current?.at).toBe('2026-03-01T09:00:00.000Z');
    expect(newer.newer).toMatchObject([{ test: 'countermovement-jump', at: '2026-04-20T09:00:00.000Z' }]);
  });

  it('says that values without curves are there, and does not mix them in', async () => {
    const { id, code } = await station.ask(routes.createPerson, {
      params: lab,
      body: { code: 'FW-31', givenName: 'Imre', familyName: 'Oakes' },
    });
    await send(jumps({ height: 0.35 }, 31), 'countermovement-jump', '2026-03-02T09:00:00.000Z', id);
    const text = `Athlete;Date;Trial;Peak force (N)\n${code};02.03.2026;1;2481\n${code};02.03.2026;2;2519\n`;
    const { id: upload } = await station.ask(routes.upload, {
      params: lab,
      query: { name: 'earlier.csv' },
      bytes: new TextEncoder().encode(text) as Uint8Array<ArrayBuffer>,
    });
    const { mapping } = await station.ask(receivedRoutes.table, { params: lab, body: { upload } });
    const body = {
      upload,
      mapping,
      test: 'imtp',
      methodLabel: 'other lab',
      people: [],
      onDuplicate: 'skip',
      by,
    } as const;
    const dry = await station.ask(receivedRoutes.dryRun, { params: lab, body: { ...body, people: [] } });
    const people = dry.people.map(({ key }) => ({ key, id }));
    const kept = await station.ask(receivedRoutes.import, { params: lab, body: { ...body, people } });
    expect(kept.values).toBe(2);
    const view = await station.ask(followRoutes.battery, { params: { ...lab, id }, query: {} });
    expect(view.ratios[0]).toMatchObject({
      lack: { reason: 'test-missing', tests: ['imtp'], received: 1 },
      history: [],
    });
  });
});
