import { call, liveRoutes, type Route, routes, type VideoView, videoRoutes } from '@sthene/contract';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { guide } from '../../apps/station/test/live/guide.ts';
import { LiveClient } from '../../apps/station/test/live/live-client.ts';
import { by, inLab, virtual } from '../../apps/station/test/live/set-up.ts';
import { withStore } from '../../apps/station/test/live/stored.ts';
import { seriousFindings } from './axe.ts';
import { drawClock, readClocks } from './film-clock.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
const fakeCamera = ['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream'];

describe.skipIf(reason !== undefined)(`filming a trial${reason ? ` (${reason})` : ''}`, { timeout: 120_000 }, () => {
  let station: StationUnderTest;
  let camera: WatchedPage;
  let clock: WatchedPage;
  let tablet: LiveClient;
  let rig: string;
  let entry: string;
  let trial: string;
  const ask = <P, Q, B, R>(route: Route<P, Q, B, R>, input: object) =>
    call((url, init) => fetch(url, init as RequestInit), station.address.replace(/\/$/, ''), route, input as never);

  beforeAll(async () => {
    station = await stationUnderTest(fakeCamera);
    await ask(routes.createLab, { params: inLab, body: {} });
    const body = { givenName: 'Wren', familyName: 'Alder', birthDate: '1999-04-01' };
    const person = await ask(routes.createPerson, { params: inLab, body });
    await ask(liveRoutes.addGate, {
      params: { ...inLab, id: person.id },
      body: { kind: 'screening', granted: true, limb: 'both', from: '2026-01-01', note: '', by },
    });
    const description = JSON.parse(JSON.stringify(virtual(1.5)));
    const source = await ask(liveRoutes.createSource, { params: inLab, body: { description, by } });
    const made = await ask(liveRoutes.createRig, {
      params: inLab,
      body: { name: 'Rig A', letter: 'A', shape: 'circle', sources: [source.id], notes: '', by },
    });
    rig = made.id;
    const test = { test: 'imtp', efforts: [{ kind: 'maximal' }], rest: { minimum: 1, maximum: 600 } };
    const day = await ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [test], rigs: [rig], people: [person.id], handsFree: false, by },
    });
    entry = day.entries[0]?.id ?? '';
    tablet = await LiveClient.join(station.address, 'operator', 'tablet-1');
    await tablet.probe();
    tablet.send({ type: 'take-controls' });
    await ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    await tablet.next('rig', ({ rig: view }) => view.state === 'measuring');
    camera = await station.page();
    clock = await station.page();
    await clock.addInitScript(drawClock);
  }, 120_000);
  afterAll(async () => {
    tablet?.close();
    await station?.close();
  });

  it('the camera screen says what it waits for, films the effort by itself and says that it is safe', async () => {
    await camera.goto('/lab/camera/A');
    await clock.goto('/lab/camera/A');
    await camera.getByText('Nobody is on the rig.', { exact: false }).waitFor();
    await camera.getByText('The clocks agree within').waitFor();
    expect(await seriousFindings(camera)).toEqual([]);
    await clock.getByText('The clocks agree within').waitFor();
    const guided = guide(tablet, rig, () => entry);
    await camera.getByText('Filming. It ends two seconds after the pull.').waitFor();
    expect(await camera.locator('.film-light').textContent()).toBe('filming');
    const { verdict } = await tablet.next('verdict', () => true, 0, 60);
    guided.stop();
    trial = verdict.trial;
    await camera.getByText('1 film is safe at the station.').waitFor({ timeout: 60_000 });
    await clock.getByText('1 film is safe at the station.').waitFor({ timeout: 60_000 });
    expect(await camera.locator('.film-light').textContent()).toBe('not filming');
    expect(camera.troubles).toEqual([]);
    expect(clock.troubles).toEqual([]);
    await camera.close();
    await clock.close();
  });

  it('both films lie beside the curve, and what a clock showed in the picture is where they were laid', async () => {
    const show = () => ask(videoRoutes.trialVideos, { params: { ...inLab, id: trial } });
    await expect.poll(async () => (await show()).videos.length, { timeout: 60_000 }).toBe(2);
    const { videos } = await show();
    expect(videos.map(({ state }) => state)).toEqual(['stored', 'stored']);
    const drawn = videos.find(({ width }) => width === 320);
    if (drawn?.sync === undefined) throw new Error('the film of the clock has no place');
    const page = await station.page();
    await page.goto('/');
    const shown = await readClocks(page, `/api/labs/lab/videos/${drawn.id}/file`, drawn.frames);
    // The station's time of each frame by the picture itself, and by where the film was laid beside the curve.
    const { facts, origin } = await withStore(station.dataFolder, async (store) => ({
      facts: (await store.videos.get(drawn.id))?.facts as { ties: { offset: number }[] },
      origin: await store.origins.ofTrial(trial),
    }));
    const { start, end } = origin?.facts.stationTime as { start: number; end: number };
    const offset = facts.ties.at(-1)?.offset ?? Number.NaN;
    const view = await ask(routes.trial, { params: { ...inLab, id: trial } });
    const seconds = view.recording.sampleCount / view.recording.sampleRate;
    const off = shown.flatMap((device, i) => {
      if (device === undefined) return [];
      const byPicture = ((device + offset - start) * seconds) / (end - start);
      const laid = (drawn.sync?.start ?? 0) + (drawn.sync?.rate ?? 1) * (drawn.frames[i] ?? 0);
      return [(1000 * (laid - byPicture)) / (drawn.sync?.rate ?? 1)];
    });
    expect(off.length).toBeGreaterThan(drawn.frames.length / 6);
    off.sort((a, b) => a - b);
    const at = (share: number) => off[Math.floor(share * (off.length - 1))] as number;
    console.info(
      `film against the clock in its picture, ms: median ${at(0.5).toFixed(1)}, 5 % ${at(0.05).toFixed(1)}, 95 % ${at(0.95).toFixed(1)}, frames ${off.length} of ${drawn.frames.length}, told ${((1000 * drawn.sync.uncertainty) / drawn.sync.rate).toFixed(1)}`,
    );
    // A picture is taken after it was painted, up to a frame of the screen later; more than a frame of the film is too much.
    expect(at(0.5)).toBeGreaterThan(-50);
    expect(at(0.5)).toBeLessThan(50);
    await page.close();
  });

  it('the trial screen plays it with one cursor: curve moves film, film moves curve', async () => {
    const { videos } = await ask(videoRoutes.trialVideos, { params: { ...inLab, id: trial } });
    const film = videos[0] as VideoView;
    const page = await station.page();
    await page.goto(`/lab/trials/${trial}`);
    const player = page.locator('.film video');
    await player.waitFor();
    await page.waitForFunction(
      () =>
        ((
          globalThis as unknown as { document: { querySelector(css: string): { readyState: number } } }
        ).document.querySelector('.film video').readyState ?? 0) >= 2,
    );
    const duration = await player.evaluate((video) => (video as unknown as { duration: number }).duration);
    expect(Number.isFinite(duration)).toBe(true);
    expect(Math.abs(duration - (film.duration ?? 0))).toBeLessThan(0.2);
    const seenAt = async () => {
      await page.waitForFunction(
        () =>
          !(
            globalThis as unknown as { document: { querySelector(css: string): { seeking: boolean } } }
          ).document.querySelector('.film video').seeking,
      );
      return player.evaluate((video) => (video as unknown as { currentTime: number }).currentTime);
    };
    // the keys go from event to event and say the time
    for (const name of ['onset', 'peak']) {
      const spoken = page.locator('.trial-curve p[aria-live]');
      for (let i = 0; i < 12 && !((await spoken.textContent()) ?? '').startsWith(name); i++)
        await page.keyboard.press('n');
      const time = Number(/, (\d+\.\d+) s/.exec((await spoken.textContent()) ?? '')?.[1]);
      expect(time, name).toBeGreaterThan(0);
      const wanted = (time - (film.sync?.start ?? 0)) / (film.sync?.rate ?? 1);
      const frame = Math.max(...film.frames.slice(1).map((at, i) => at - (film.frames[i] ?? 0)));
      await expect.poll(async () => Math.abs((await seenAt()) - wanted), { timeout: 20_000 }).toBeLessThan(frame);
    }
    // step on by one frame: player and cursor both move by that frame
    const before = await page.locator('.film-tools .number').textContent();
    const number = (text: string | null) => Number(/frame (\d+)/.exec(text ?? '')?.[1]);
    await page.keyboard.press('.');
    await expect
      .poll(async () => number(await page.locator('.film-tools .number').textContent()))
      .toBe(number(before) + 1);
    const at = await seenAt();
    const index = number(before);
    expect(at).toBeGreaterThanOrEqual((film.frames[index] ?? 0) - 0.001);
    expect(at).toBeLessThanOrEqual((film.frames[index + 1] ?? Number.POSITIVE_INFINITY) + 0.001);
    await page.getByRole('button', { name: 'Frame before' }).click();
    await expect.poll(async () => number(await page.locator('.film-tools .number').textContent())).toBe(number(before));
    // play: the cursor of the curve runs along
    await page.locator('.film-play').click();
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await page.getByRole('button', { name: 'Pause' }).click();
    await page.getByRole('button', { name: 'Play' }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await nudge(page);
    expect(page.troubles).toEqual([]);
  });

  async function nudge(page: Page) {
    await page.getByText('Film and curve agree within').click();
    await page.getByRole('button', { name: 'Film later' }).click();
    await page.getByLabel('Your name').fill('Rowan');
    await page.locator('.film form button[type=submit]').click();
    await page.getByRole('button', { name: 'Keep it there' }).click();
    await page.getByRole('button', { name: 'Take back to 0 ms' }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Take back to 0 ms' }).click();
    await page.getByText('not moved by hand').waitFor();
    await page.getByRole('button', { name: 'Remove the film' }).click();
    await page.getByLabel('Why is it removed?').fill('asked for by the athlete');
    await page.getByRole('button', { name: 'Remove it' }).click();
    await page.getByText('asked for by the athlete (Rowan)').waitFor();
  }
});
