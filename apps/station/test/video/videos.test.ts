import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Day, liveRoutes, routes, videoRoutes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { guide } from '../live/guide.ts';
import { LiveClient } from '../live/live-client.ts';
import { addPeople, addRig, by, inLab, virtual } from '../live/set-up.ts';
import { withStore } from '../live/stored.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { type Film, filmAt, sender } from './films.ts';

const refused = (code: string) => expect.objectContaining({ problem: expect.objectContaining({ code }) });

describe('videos of a live day', { timeout: 240_000 }, () => {
  let station: StationUnderTest;
  let tablet: LiveClient;
  let day: Day;
  let rig: string;
  let minor: string;
  let film: Film;
  let trial = '';
  let turn = '';
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const people = await addPeople(station);
    const young = await station.ask(routes.createPerson, {
      params: inLab,
      body: { givenName: 'Plover', familyName: 'Dunn', birthDate: '2010-05-02' },
    });
    minor = young.id;
    await station.ask(liveRoutes.addGate, {
      params: { ...inLab, id: minor },
      body: { kind: 'screening', granted: true, limb: 'both', from: '2026-01-01', note: '', by },
    });
    rig = await addRig(station, 'A', virtual(4));
    const one = { test: 'imtp', efforts: [{ kind: 'maximal' as const }], rest: { minimum: 1, maximum: 600 } };
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: {
        date: '2026-03-02',
        tests: [one],
        rigs: [rig],
        people: [people[0] ?? '', minor],
        handsFree: false,
        by,
      },
    });
    tablet = await LiveClient.join(station.address, 'operator', 'tablet-1');
    await tablet.probe();
    tablet.send({ type: 'take-controls' });
    day = await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    await tablet.next('rig', ({ rig: view }) => view.state === 'measuring');
  }, 60_000);
  afterAll(async () => {
    tablet?.close();
    await station?.end();
  });
  // A device sends the same bytes again, not new ones: its clock is asked once for each piece.
  const clock = () => ({ at: film.startedAt, offset: tablet.offset, uncertainty: 0.5 });
  const fileOf = (id: string) => `${station.address}api/labs/lab/videos/${id}/file`;

  it('are told to devices as allowed for an adult, and recorded while the effort goes on', async () => {
    const guided = guide(tablet, rig, () => day.entries[0]?.id);
    await tablet.until(() => tablet.floor(rig)?.phase === 'ready');
    expect(tablet.floor(rig)?.film).toEqual({ allowed: true, words: 'May be filmed.' });
    turn = tablet.floor(rig)?.turn?.id ?? '';
    film = filmAt('vp8', performance.now());
    const send = sender(station, film, clock());
    expect(await send.begin('film-of-heron', rig, turn)).toEqual({
      id: 'film-of-heron',
      state: 'receiving',
      received: [],
    });
    expect((await send.send('film-of-heron', 0)).received).toEqual([0]);
    const verdict = await tablet.next('verdict');
    guided.stop();
    trial = verdict.verdict.trial;
    // a verdict is told before everything is written
    await expect
      .poll(
        () =>
          station.ask(routes.trial, { params: { ...inLab, id: trial } }).then(
            ({ id }) => id,
            () => '',
          ),
        {
          timeout: 20_000,
        },
      )
      .toBe(trial);
    // what is on its way already is shown as that, so that whoever looks waits for it
    const { videos } = await station.ask(videoRoutes.trialVideos, { params: { ...inLab, id: trial } });
    expect(videos).toMatchObject([{ id: 'film-of-heron', state: 'receiving', frames: [] }]);
  });

  it('go on after an interruption: what came twice changes nothing, what is missing is named', async () => {
    const id = 'film-of-heron';
    const send = sender(station, film, clock());
    expect((await send.begin(id, rig, turn)).received).toEqual([0]);
    expect((await send.send(id, 0)).received).toEqual([0]);
    await expect(send.put(id, 0, send.body(1))).rejects.toEqual(refused('video-piece-differs'));
    await expect(send.put(id, 1, send.body(1), '0'.repeat(64))).rejects.toEqual(refused('video-piece-damaged'));
    await Promise.all([send.send(id, 2), send.send(id, 2), send.send(id, 1)]);
    await expect(send.finish(id)).rejects.toEqual(refused('video-pieces-missing'));
    for (let i = 3; i < film.slices.length; i++) await send.send(id, i);
    expect((await send.finish(id)).state).toBe('stored');
    expect((await send.finish(id)).state).toBe('stored');
    expect((await send.send(id, 1)).state).toBe('stored');
    expect(existsSync(join(station.folder, 'lab', 'videos', id))).toBe(false);
  });

  it('stand beside the trial they show, seekable, at the time both clocks say', async () => {
    const { videos, refused: none } = await station.ask(videoRoutes.trialVideos, { params: { ...inLab, id: trial } });
    expect(none).toBeUndefined();
    expect(videos).toHaveLength(1);
    const [video] = videos;
    if (video?.sync === undefined) throw new Error('the video has no place beside the curve');
    expect(video).toMatchObject({ state: 'stored', width: 96, height: 64, nudge: 0, mediaType: 'video/webm' });
    expect(video.duration).toBeGreaterThan(2.2);
    expect(video.frames.length).toBeGreaterThan(50);
    expect(video.frames[0]).toBe(0);
    // worked out once more by hand from what the store keeps: the film begins with the frame captured about its start
    const first = (film.seen.find((at) => at >= film.startedAt) ?? 0) + tablet.offset;
    const kept = await withStore(station.folder, async (store) => ({
      origin: await store.origins.ofTrial(trial),
      result: await store.results.current(trial),
    }));
    if (kept.origin === undefined) throw new Error('the trial has no origin');
    const { span, facts } = kept.origin;
    const { stationTime, cue } = facts as { stationTime: { start: number; end: number }; cue: number };
    const { start, end } = stationTime;
    const seconds = (span.end - span.start) / (kept.result?.document.sampleRate ?? 0);
    const { rate, uncertainty } = video.sync;
    const byHand = ((first - start) * seconds) / (end - start);
    expect(Math.abs(video.sync.start - byHand)).toBeLessThan(video.sync.uncertainty + 0.04 * video.sync.rate);
    expect(rate).toBeGreaterThan(3.6);
    expect(rate).toBeLessThan(4.4);
    expect(uncertainty).toBeGreaterThan(0);
    expect(uncertainty / rate).toBeLessThan(0.06);
    // and by something else altogether: the cue, which has a station time of its own beside its sample
    const go = tablet.of('cue').find(({ sound }) => sound === 'go');
    const cueAt = start + ((cue - span.start) / (span.end - span.start)) * (end - start);
    expect(Math.abs((go?.at ?? 0) - cueAt)).toBeLessThan(300);
  });

  it('are sent whole or in part', async () => {
    const whole = await fetch(fileOf('film-of-heron'));
    expect(whole.status).toBe(200);
    expect(whole.headers.get('accept-ranges')).toBe('bytes');
    const bytes = new Uint8Array(await whole.arrayBuffer());
    expect(whole.headers.get('etag')).toBe(`"${createHash('sha256').update(bytes).digest('hex')}"`);
    const part = await fetch(fileOf('film-of-heron'), { headers: { range: 'bytes=100-199' } });
    expect(part.status).toBe(206);
    expect(part.headers.get('content-range')).toBe(`bytes 100-199/${bytes.length}`);
    expect(new Uint8Array(await part.arrayBuffer())).toEqual(bytes.subarray(100, 200));
    const beyond = await fetch(fileOf('film-of-heron'), { headers: { range: `bytes=${bytes.length}-` } });
    expect(beyond.status).toBe(416);
    expect(beyond.headers.get('content-range')).toBe(`bytes */${bytes.length}`);
  });

  it('are moved by hand, with who did it, and moved back', async () => {
    const id = 'film-of-heron';
    const show = async () =>
      (await station.ask(videoRoutes.trialVideos, { params: { ...inLab, id: trial } })).videos.find(
        (one) => one.id === id,
      );
    const { revision = 0 } = (await show()) ?? {};
    const nudge = (value: number, from: number) =>
      station.ask(videoRoutes.nudgeVideo, { params: { ...inLab, id }, body: { nudge: value, revision: from, by } });
    const moved = await nudge(0.024, revision);
    expect(moved).toMatchObject({ nudge: 0.024, nudgeBefore: 0, revision: revision + 1 });
    await expect(nudge(0.5, revision)).rejects.toEqual(refused('video-changed-meanwhile'));
    await expect(nudge(2.5, revision + 1)).rejects.toEqual(refused('request-invalid'));
    expect(await nudge(0, revision + 1)).toMatchObject({ nudge: 0, nudgeBefore: 0.024 });
    const page = await station.ask(routes.audit, { params: inLab, query: { offset: 0, limit: 50 } });
    expect(page.intact).toBe(true);
    expect(page.entries.filter(({ action }) => action === 'video.nudge').map(({ who }) => who)).toEqual([by, by]);
  });

  it('are refused for someone under 18 without a consent on record, and what came is thrown away when it ends', async () => {
    const entry = day.entries[1]?.id ?? '';
    const answers = { pain: false, injury: false, screened: true, consent: true, warmedUp: true, note: '' };
    await station.ask(liveRoutes.changeEntry, { params: { ...inLab, id: entry }, body: { readiness: answers, by } });
    // whatever the rig is at: on to the rest, then the next person
    for (let tries = 0; tries < 300 && tablet.floor(rig)?.turn?.entry !== entry; tries++) {
      const { phase } = tablet.floor(rig) ?? {};
      if (phase === 'verdict') await tablet.command(rig, 'advance');
      else if (phase === 'rest' || phase === 'waiting') await tablet.command(rig, 'begin', { entry });
      await new Promise((done) => setTimeout(done, 50));
    }
    await tablet.until(() => tablet.floor(rig)?.turn?.entry === entry);
    // the answer before the effort lets the effort through, not the camera
    expect(tablet.floor(rig)?.film).toMatchObject({ allowed: false, words: expect.stringContaining('under 18') });
    const now = tablet.floor(rig)?.turn?.id ?? '';
    const send = sender(station, filmAt('vp8', performance.now()), clock());
    await expect(send.begin('film-of-plover', rig, now)).rejects.toEqual(refused('video-not-allowed'));
    await expect(send.send('film-of-plover', 0)).rejects.toEqual(refused('not-found'));
    await expect(send.begin('film-of-plover', rig, 'another turn')).rejects.toEqual(refused('video-other-turn'));

    const consent = (granted: boolean, from: string) =>
      station.ask(liveRoutes.addGate, {
        params: { ...inLab, id: minor },
        body: { kind: 'consent', granted, limb: 'both', from, note: '', by },
      });
    await consent(true, '2026-01-01');
    await tablet.until(() => tablet.floor(rig)?.film?.allowed === true);
    expect((await send.begin('film-of-plover', rig, now)).state).toBe('receiving');
    await send.send('film-of-plover', 0);
    await consent(false, '2026-01-02');
    await expect(send.send('film-of-plover', 1)).rejects.toEqual(refused('video-not-allowed'));
    expect(existsSync(join(station.folder, 'lab', 'videos', 'film-of-plover'))).toBe(false);
    await consent(true, '2026-01-03');
    await expect(send.send('film-of-plover', 1)).rejects.toEqual(refused('video-closed'));
    expect((await send.finish('film-of-plover')).state).toBe('dropped');
  });

  it('can be given up while they are received, and only then', async () => {
    const now = tablet.floor(rig)?.turn?.id ?? '';
    const send = sender(station, filmAt('avc', performance.now()), clock());
    await send.begin('film-of-nothing', rig, now);
    await send.send('film-of-nothing', 0);
    const abandon = (id: string) => station.ask(videoRoutes.abandonVideo, { params: { ...inLab, id } });
    expect(await abandon('film-of-nothing')).toEqual({ abandoned: true });
    expect(existsSync(join(station.folder, 'lab', 'videos', 'film-of-nothing'))).toBe(false);
    expect(await abandon('film-of-heron')).toEqual({ abandoned: false });
  });

  it('are removed by name and reason; the trial says so and the bytes are gone', async () => {
    const drop = await station.ask(videoRoutes.dropVideo, {
      params: { ...inLab, id: 'film-of-heron' },
      body: { reason: 'asked for by the athlete', by },
    });
    expect(drop).toMatchObject({
      state: 'dropped',
      frames: [],
      dropped: { words: `asked for by the athlete (${by})` },
    });
    expect((await fetch(fileOf('film-of-heron'))).status).toBe(410);
    const { videos } = await station.ask(videoRoutes.trialVideos, { params: { ...inLab, id: trial } });
    expect(videos.map(({ state }) => state)).toEqual(['dropped']);
    await withStore(station.folder, async (store) => {
      expect(await store.recordings.verify()).toEqual([]);
      expect((await store.audit.verify()).intact).toBe(true);
    });
  });
});
