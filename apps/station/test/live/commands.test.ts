import { type Day, liveRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

describe('commands', () => {
  let station: StationUnderTest;
  let tablet: LiveClient;
  let laptop: LiveClient;
  let day: Day;
  let people: string[];
  let rig: string;
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: {} });
    people = await addPeople(station);
    rig = await addRig(station, 'A', virtual(10));
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [twoPulls], rigs: [rig], people, handsFree: false, by },
    });
    tablet = await LiveClient.join(station.address, 'operator', 'tablet-1');
    laptop = await LiveClient.join(station.address, 'operator', 'laptop-1');
    await Promise.all([tablet.probe(), laptop.probe()]);
    day = await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    await tablet.next('rig', ({ rig: view }) => view.state === 'measuring');
  });
  afterAll(async () => {
    tablet?.close();
    laptop?.close();
    await station.end();
  });

  const entry = (i: number) => day.entries[i]?.id ?? '';
  const phase = (wanted: string) => tablet.until(() => tablet.floor(rig)?.phase === wanted);

  it('are refused without the controls, and one message takes them over', async () => {
    expect(await tablet.command(rig, 'begin', { entry: entry(0) })).toMatchObject({ code: 'no-controls' });
    tablet.send({ type: 'take-controls' });
    await laptop.next('controls', ({ controls }) => controls.holder === 'tablet-1');
    expect(await laptop.command(rig, 'begin', { entry: entry(0) })).toMatchObject({ code: 'no-controls' });
    laptop.send({ type: 'take-controls' });
    await tablet.next('controls', ({ controls }) => controls.holder === 'laptop-1');
    expect(await tablet.command(rig, 'begin', { entry: entry(0) })).toMatchObject({ code: 'no-controls' });
    tablet.send({ type: 'take-controls' });
    await laptop.next('controls', ({ controls }) => controls.name === 'tablet-1', laptop.messages.length - 1);
  });

  it('are refused when they are older than a second, or from a clock of its own', async () => {
    const late = await tablet.command(rig, 'begin', { entry: entry(0), late: 1100 });
    expect(late).toMatchObject({ type: 'refused', code: 'expired', next: expect.stringMatching(/\w/) });
    const ahead = await tablet.command(rig, 'begin', { entry: entry(0), late: -100_000 });
    expect(ahead).toMatchObject({ type: 'refused', code: 'clock-unknown' });
    expect(tablet.floor(rig)?.turn).toBeUndefined();
    expect(await tablet.command(rig, 'begin', { entry: entry(0), late: 250 })).toMatchObject({ type: 'accepted' });
  });

  it('are refused for another turn, effort or phase than the present one', async () => {
    await phase('set-up');
    expect(await tablet.command(rig, 'advance', { turn: 'no-such-turn' })).toMatchObject({ code: 'wrong-turn' });
    expect(await tablet.command(rig, 'advance', { phase: 'ready' })).toMatchObject({ code: 'wrong-phase' });
    expect(await tablet.command(rig, 'cue')).toMatchObject({ code: 'not-now' });
  });

  it('hold and abort are there for any operator, at once and however late', async () => {
    expect(await laptop.command(rig, 'hold', { late: 2500 })).toMatchObject({ type: 'accepted' });
    await tablet.until(() => tablet.floor(rig)?.held === true);
    expect(await tablet.command(rig, 'advance')).toMatchObject({ code: 'held' });
    expect(await tablet.command(rig, 'resume')).toMatchObject({ type: 'accepted' });
    expect(await tablet.command(rig, 'advance')).toMatchObject({ type: 'accepted' });
    await phase('ready');
    for (let tries = 0; tries < 50; tries++)
      if ((await tablet.command(rig, 'cue')).type === 'accepted') break;
      else await new Promise((done) => setTimeout(done, 30));
    expect(tablet.floor(rig)?.phase).toBe('cue');
    const from = tablet.messages.length;
    expect(await laptop.command(rig, 'abort')).toMatchObject({ type: 'accepted' });
    await tablet.next('phase', ({ floor }) => floor.phase === 'set-up', from);
    await new Promise((done) => setTimeout(done, 700));
    expect(tablet.messages.slice(from).some((one) => one.type === 'cue' && one.sound === 'go')).toBe(false);
  });

  it('pain stops at once, is kept as a gate, and needs a named release', async () => {
    expect(await laptop.command(rig, 'pain', { note: 'left wrist' })).toMatchObject({ type: 'accepted' });
    await tablet.next('alert', ({ alert }) => alert.code === 'pain-stop');
    const gates = () => station.ask(liveRoutes.gates, { params: { ...inLab, id: people[0] ?? '' } });
    await expect.poll(async () => (await gates()).map(({ kind }) => kind)).toContain('pain-stop');
    const stop = (await gates()).find(({ kind }) => kind === 'pain-stop');
    expect(stop).toMatchObject({ granted: true, note: 'left wrist', until: '2026-03-02' });
    await tablet.next('day', ({ day: now }) => now?.entries[0]?.allowed === 'submaximal');
    // With nothing left that is allowed, the turn ends by itself once the athlete steps off, or here, whichever comes first.
    const finished = await tablet.command(rig, 'finish');
    if (finished.type === 'refused') expect(finished.code).toBe('wrong-turn');
    await tablet.until(() => tablet.floor(rig)?.turn === undefined);
    // Stopped, and not done: its maximal efforts may still be released.
    await tablet.next('day', ({ day: now }) => now?.entries[0]?.state === 'blocked');
    expect(await tablet.command(rig, 'begin', { entry: entry(0) })).toMatchObject({ code: 'nothing-planned' });
    const params = { ...inLab, id: stop?.id ?? '' };
    const released = await station.ask(liveRoutes.releaseGate, {
      params,
      body: { by: 'Physio Fern', reason: 'seen' },
    });
    expect(released.released).toMatchObject({ by: 'Physio Fern', reason: 'seen' });
    await expect(
      station.ask(liveRoutes.releaseGate, { params, body: { by: 'x', reason: 'again' } }),
    ).rejects.toMatchObject({ problem: { code: 'released-already' } });
    await tablet.next('day', ({ day: now }) => now?.entries[0]?.allowed === 'maximal', tablet.messages.length - 5);
  });

  it('keep gates: who is not cleared does not get on a rig, who has to be asked only after the answers', async () => {
    await station.ask(liveRoutes.addGate, {
      params: { ...inLab, id: people[1] ?? '' },
      body: { kind: 'clearance', granted: false, limb: 'left', from: '2026-03-01', note: '', by },
    });
    expect(await tablet.command(rig, 'begin', { entry: entry(1) })).toMatchObject({
      code: 'not-cleared',
      words: expect.stringContaining('left'),
    });
    const late = await station.ask(routes.createPerson, {
      params: inLab,
      body: { givenName: 'Vole', familyName: 'Dene', birthDate: '2011-05-01' },
    });
    const withLate = await station.ask(liveRoutes.addEntry, {
      params: { ...inLab, id: day.id },
      body: { person: { id: late.id }, position: 1, walkIn: true, by },
    });
    const added = withLate.entries[0];
    expect(added).toMatchObject({ walkIn: true, allowed: 'after-answers', person: { minor: true } });
    expect(await tablet.command(rig, 'begin', { entry: added?.id ?? '' })).toMatchObject({ code: 'answers-needed' });
    const readiness = { pain: false, injury: false, screened: true, consent: true, warmedUp: true, note: '' };
    const answered = await station.ask(liveRoutes.changeEntry, {
      params: { ...inLab, id: added?.id ?? '' },
      body: { readiness, setup: { bar_height: 71 }, by },
    });
    expect(answered.entries[0]).toMatchObject({ allowed: 'maximal', setup: { bar_height: 71 } });
    expect(await tablet.command(rig, 'begin', { entry: added?.id ?? '' })).toMatchObject({ type: 'accepted' });
    await expect(
      station.ask(liveRoutes.removeEntry, { params: { ...inLab, id: added?.id ?? '' } }),
    ).rejects.toMatchObject({ problem: { code: 'has-efforts' } });
    await tablet.command(rig, 'finish');
    const left = await station.ask(liveRoutes.changeEntry, {
      params: { ...inLab, id: added?.id ?? '' },
      body: { state: 'left', by },
    });
    expect(left.entries[0]?.state).toBe('left');
  });

  it('of a viewer are refused, and what is no message too', async () => {
    const viewer = await LiveClient.join(station.address, 'viewer', 'phone-1');
    await viewer.probe();
    viewer.send({ type: 'take-controls' });
    await viewer.next('refused', ({ code }) => code === 'not-an-operator');
    expect(await viewer.command(rig, 'abort')).toMatchObject({ code: 'not-an-operator' });
    viewer.raw('{"type":"command"}');
    await viewer.next('refused', ({ code }) => code === 'not-understood');
    viewer.close();
  });

  it('keep the last seconds when asked, without an effort', async () => {
    const kept = await station.ask(liveRoutes.keepRecent, {
      params: { ...inLab, id: rig },
      body: { seconds: 10, note: '', by },
    });
    expect(kept).toMatchObject({ samples: 10_000, seconds: 10 });
    const file = await fetch(`${station.address}api/labs/lab/recordings/${kept.sha256}/file`);
    expect(file.status).toBe(200);
  });

  it('blank the wall at once', async () => {
    const wall = await LiveClient.join(station.address, 'wall', 'wall-1');
    await tablet.command(rig, 'blank-wall');
    await wall.until(() => (wall.walls.at(-1) as { blank?: boolean }).blank === true);
    expect(wall.walls.at(-1)).toMatchObject({ rigs: [], next: [] });
    await tablet.command(rig, 'show-wall');
    await wall.until(() => wall.walls.some((one, i) => i > 2 && (one as { blank?: boolean }).blank === false));
    wall.close();
  });
});

describe('the live connection', () => {
  let station: StationUnderTest;
  beforeAll(async () => {
    station = await stationUnderTest();
  });
  afterAll(() => station.end());

  it.each([
    { origin: 'http://evil.example' },
    { origin: 'null' },
    { host: 'evil.example' },
    { origin: 'http://localhost:1' },
  ])('refuses a page that is not ours: %j', async (headers) => {
    const { default: WebSocket } = await import('ws');
    const url = `${station.address.replace('http', 'ws')}api/live`;
    const status = await new Promise<number | undefined>((done) => {
      const socket = new WebSocket(url, { headers });
      socket.on('unexpected-response', (_, response) => done(response.statusCode));
      socket.on('open', () => done(undefined));
      socket.on('error', () => {});
    });
    expect(status).toBe(403);
  });

  it('answers what was sent right behind the hello, before the lab was open', async () => {
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const { default: WebSocket } = await import('ws');
    const socket = new WebSocket(`${station.address.replace('http', 'ws')}api/live`);
    const types: string[] = [];
    await new Promise<void>((done, failed) => {
      socket.on('open', () => {
        const device = { id: 'quick-1', name: 'quick' };
        socket.send(JSON.stringify({ type: 'hello', protocol: 1, lab: 'lab', role: 'viewer', device }));
        socket.send(JSON.stringify({ type: 'probe', id: 'p1', t0: 0 }));
      });
      socket.on('message', (data) => {
        types.push((JSON.parse(String(data)) as { type: string }).type);
        if (types.includes('probe')) done();
      });
      socket.on('close', (code) => failed(new Error(`closed with ${code}`)));
    });
    expect(types[0]).toBe('snapshot');
    socket.terminate();
  });

  it('closes without a hello, and for a lab that is not there', async () => {
    const { default: WebSocket } = await import('ws');
    const url = `${station.address.replace('http', 'ws')}api/live`;
    const closedWith = (first: string) =>
      new Promise<number>((done) => {
        const socket = new WebSocket(url);
        socket.on('open', () => socket.send(first));
        socket.on('close', (code) => done(code));
      });
    expect(await closedWith('{"type":"take-controls"}')).toBe(4001);
    expect(await closedWith('not json')).toBe(4001);
    const hello = { type: 'hello', protocol: 1, lab: 'example', role: 'viewer', device: { id: 'x', name: 'x' } };
    expect(await closedWith(JSON.stringify(hello))).toBe(4004);
  });
});
