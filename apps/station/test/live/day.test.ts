import { type Day, liveRoutes, routes, type ToOperator } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { guide } from './guide.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { expectSameReplayed } from './replayed.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';
import { expectSameAgain } from './stored.ts';

const weights = [640, 860, 1010];

/** Looks for a body weight, a mass or a value per kilogram in what was sent to a wall, by name and by number. */
function expectNoWeight(sent: readonly unknown[], bodyWeights: readonly number[]): void {
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'number' && !/sequence|first|at$|rate|bucket/.test(path))
      for (const weight of bodyWeights) {
        expect(Math.abs(value - weight), `${path} = ${value}`).toBeGreaterThan(0.5);
        expect(Math.abs(value - weight / 9.80665), `${path} = ${value}`).toBeGreaterThan(0.05);
      }
    if (Array.isArray(value)) for (const [i, one] of value.entries()) walk(one, `${path}.${i}`);
    else if (value !== null && typeof value === 'object')
      for (const [name, one] of Object.entries(value)) {
        expect(name).not.toMatch(/weight|mass|kilo|perKg|bodyWeight/i);
        walk(one, `${path}.${name}`);
      }
  };
  for (const message of sent) {
    // A curve passes through every value on its way up; what stands still must not be among them.
    if ((message as { type: string }).type !== 'wall-envelope') walk(message, (message as { type: string }).type);
  }
}

describe.each([
  { way: 'hands-free', handsFree: true },
  { way: 'guided', handsFree: false },
])('a $way day of three on virtual plates', ({ handsFree }) => {
  let station: StationUnderTest;
  let operator: LiveClient;
  let wall: LiveClient;
  let day: Day;
  let rig: string;
  beforeAll(async () => {
    station = await stationUnderTest(undefined, undefined, lockstepPorts());
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const people = await addPeople(station);
    rig = await addRig(station, 'A', virtual(15));
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [twoPulls], rigs: [rig], people, handsFree, by },
    });
    operator = await LiveClient.join(station.address, 'operator', 'tablet-1');
    wall = await LiveClient.join(station.address, 'wall', 'wall-1');
    await operator.probe();
    operator.send({ type: 'take-controls' });
    await operator.next('controls', ({ controls }) => controls.holder === 'tablet-1');
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
  });
  afterAll(async () => {
    operator?.close();
    wall?.close();
    await station.end();
  });

  const verdicts = () => operator.of('verdict').map(({ verdict }) => verdict);
  const newestDay = () =>
    operator.messages.findLast((one): one is Extract<ToOperator, { type: 'day' }> => one.type === 'day')?.day;

  it('runs to its end: two efforts each, nobody waits while another rests', { timeout: 200_000 }, async () => {
    const guided = guide(operator, rig, () => {
      const next = newestDay()?.next[0];
      return next !== undefined && Date.parse(next.at) <= Date.now() + 50 ? next.entry : undefined;
    });
    if (handsFree) guided.stop();
    await operator.until(() => new Set(verdicts().map(({ trial }) => trial)).size >= 6, 150);
    await operator.until(() => newestDay()?.entries.every(({ state }) => state === 'done') ?? false, 30);
    guided.stop();
    const order = verdicts().map(({ person }) => person.name.split(' ')[0]);
    for (const name of ['Wren', 'Heron', 'Otter']) expect(order.filter((one) => one === name)).toHaveLength(2);
    // While the first rests the second pulls.
    expect(order.slice(0, 2)).toEqual(['Wren', 'Heron']);
    expect(verdicts().map(({ verdict }) => verdict)).toEqual(Array(6).fill('counts'));
  });

  it("says what to say with each verdict, and how it compares with the athlete's own", () => {
    expect(verdicts()[0]).toMatchObject({ say: expect.stringMatching(/\w/), effort: { kind: 'maximal' } });
    expect(verdicts().at(-1)?.values[0]).toMatchObject({ metric: 'peak_force', history: { n: 1 } });
  });

  it('stores trials that every screen shows at once', async () => {
    for (const { trial, session } of verdicts()) {
      const view = await station.ask(routes.trial, { params: { ...inLab, id: trial } });
      expect(view).toMatchObject({ state: 'counts', recording: { format: 'parquet' }, session: { id: session } });
      // Plates faster than life take the station's own cue, and the trial says so.
      expect(view.cueHeard).toEqual({ way: 'station', after: 0, delayFrom: 'unknown' });
      const curve = await station.curve(trial);
      expect(curve.samples).toBe(view.recording.sampleCount);
    }
    const page = await station.ask(routes.sessions, { params: inLab });
    expect(page.rows.map(({ trials, counting }) => [trials, counting])).toEqual(Array(3).fill([2, 2]));
    const sessions = await Promise.all(
      page.rows.map(({ id }) => station.ask(routes.session, { params: { ...inLab, id } })),
    );
    const weighed = sessions.map(({ bodyWeight }) => bodyWeight?.value ?? 0).sort((a, b) => a - b);
    for (const [i, weight] of weights.entries()) expect(Math.abs((weighed[i] ?? 0) - weight)).toBeLessThan(4);
  });

  it('stores what the analysis of the stored recording gives, to the last digit', async () => {
    await expectSameAgain(station.folder, 6);
  });

  it('says how sure a value is from the weighing of its turn and the one stream of its plates', async () => {
    for (const { trial } of verdicts()) {
      const { metrics, weight } = await station.ask(routes.uncertainty, { params: { ...inLab, id: trial } });
      expect(weight).toMatchObject({ of: 'weighing', seconds: expect.toSatisfy((n: number) => n >= 2) });
      const net = metrics.peak_force_net;
      if (net === undefined || 'reason' in net) throw new Error(net?.reason ?? 'nothing');
      expect(net.parts.find(({ id }) => id === 'body-weight')?.standard).toBeGreaterThan(0);
      expect(net.unknown.map(({ id }) => id)).not.toContain('synchronisation');
    }
  });

  it('moves an onset by hand and back without changing another value of the trial', async () => {
    const trial = verdicts()[0]?.trial ?? '';
    const before = await station.ask(routes.trial, { params: { ...inLab, id: trial } });
    const index = before.result.onset.ok ? Math.round(before.result.onset.value.index) + 5 : 0;
    const moved = await station.ask(routes.decide, {
      params: { ...inLab, id: trial },
      body: { kind: 'onset-by-hand', index, reason: 'looked at it', by },
    });
    expect(moved.result.onset).toMatchObject({ ok: true, value: { index } });
    expect(moved.result.bodyWeight).toEqual(before.result.bodyWeight);
    expect(moved.result.metrics.peak_force).toEqual(before.result.metrics.peak_force);
    const back = await station.ask(routes.undo, { params: { ...inLab, id: trial }, body: { by } });
    expect(back.result).toEqual(before.result);
  });

  it('tells what is safe on disk, and shows the curve without holes', () => {
    const confirmed = operator.of('confirmed').at(-1);
    expect(confirmed?.samples).toBeGreaterThan(60_000);
    expect(confirmed?.bytes).toBeGreaterThan(60_000 * 16);
    let next: number | undefined;
    for (const { first, bucket, total, left } of operator.of('envelope')) {
      if (next !== undefined) expect(first).toBe(next);
      next = first + (bucket * total.length) / 2;
      expect(left).toHaveLength(total.length);
    }
    expect(next).toBeGreaterThan(60_000);
  });

  it('sounds three, two, one and the cue in this order, before each pull', () => {
    const sounds = operator.of('cue').map(({ sound }) => sound);
    const go = sounds.flatMap((sound, i) => (sound === 'go' ? [i] : []));
    expect(go.length).toBeGreaterThanOrEqual(6);
    for (const i of go) expect(sounds.slice(i - 3, i)).toEqual(['three', 'two', 'one']);
  });

  it('never tells the wall a weight', () => {
    expect(wall.walls.some((one) => (one as { type: string }).type === 'wall-envelope')).toBe(true);
    const results = wall.walls.flatMap((one) => {
      const rigs = (one as { rigs?: { result?: { highest?: number } }[] }).rigs ?? [];
      return rigs.flatMap(({ result }) => (result?.highest === undefined ? [] : [result.highest]));
    });
    expect(Math.max(0, ...results)).toBeGreaterThan(1000);
    expectNoWeight(wall.walls, weights);
    // Standing still on the plates shows nothing above standing.
    const most = wall.walls
      .flatMap((one) => (one as { above?: number[] }).above ?? [])
      .reduce((highest, value) => Math.max(highest, value), 0);
    expect(most).toBeLessThan(2200);
  });

  it('ends with the day closed and its capture on record', async () => {
    const closed = await station.ask(liveRoutes.closeDay, { params: { ...inLab, id: day.id }, body: { by } });
    expect(closed).toMatchObject({ status: 'closed', forecast: { effortsLeft: 0 } });
    const rigs = await station.ask(liveRoutes.rigs, { params: inLab });
    expect(rigs[0]).toMatchObject({ state: 'closed' });
    const days = await station.ask(liveRoutes.days, { params: inLab });
    expect(days).toMatchObject([{ status: 'closed', people: 3, trials: 6 }]);
  });

  it('is the same day when its journal is run again', async () => {
    await expectSameReplayed(station.folder, 6);
  });
});
