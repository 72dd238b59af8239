import { liveRoutes, routes, videoRoutes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { runToPhase } from './floor-operator.ts';
import { type PlayedLab, playedLab } from './played-lab.ts';
import { type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
/** Waits are long for a busy machine and return at once on a quiet one. */
const patience = 60_000;
/** A camera of the browser's own, which shows a moving picture, and nobody who has to allow it. */
const fakeCamera = ['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream'];

const script = {
  people: [
    { weight: 712, strength: 1700 },
    { weight: 604, strength: 1100 },
  ],
};
const wren = { givenName: 'Wren', familyName: 'Alder', birthDate: '1999-04-01' };
const plover = { givenName: 'Plover', familyName: 'Dunn', birthDate: '2011-05-02', consent: false };
const inLab = { lab: 'lab' as const };

describe.skipIf(reason !== undefined)(`films of efforts${reason ? ` (${reason})` : ''}`, { timeout: 180_000 }, () => {
  let lab: PlayedLab;
  let camera: WatchedPage;
  let floor: WatchedPage;
  let trial: WatchedPage;
  /** Address of Wren's trial. */
  let address = '';

  const opened = async (options: Parameters<PlayedLab['page']>[0]) => {
    const page = await lab.page(options);
    page.setDefaultTimeout(patience);
    await page.addInitScript("localStorage.setItem('sthene.signed-as', 'Rowan')");
    return page;
  };
  beforeAll(async () => {
    lab = await playedLab({
      script,
      speed: 2,
      people: [wren, plover],
      day: { tests: [{ test: 'imtp', efforts: [{ kind: 'maximal' }], rest: { minimum: 20, maximum: 600 } }] },
      browserArguments: fakeCamera,
    });
    camera = await opened({ viewport: { width: 1180, height: 820 } });
    floor = await opened({ viewport: { width: 1180, height: 820 } });
    trial = await opened({ viewport: { width: 1440, height: 900 } });
  }, 120_000);
  afterAll(() => lab?.close());

  /** Number of the frame that is shown, and the instant of the curve it belongs to, s. */
  const frameNow = async () => {
    const said = (await trial.locator('.film-tools .number').textContent()) ?? '';
    const [, frame, of, at] = /^frame (\d+) of (\d+)(?:, (\S+) s)?/.exec(said) ?? [];
    return { frame: Number(frame), of: Number(of), at: Number(at?.replace('\u2212', '-')) };
  };
  const becomes = (test: (now: Awaited<ReturnType<typeof frameNow>>) => boolean) =>
    expect.poll(async () => test(await frameNow()), { timeout: patience }).toBe(true);
  /** Where the cursor of the curve reads, s. */
  const cursorNow = async () =>
    Number((await trial.locator('.legend-cursor b').textContent())?.replace('\u2212', '-') ?? Number.NaN);
  /** The picture of the player, not what the page says of it, s. */
  const playerNow = () =>
    trial.locator('.film video').evaluate((video) => (video as unknown as { currentTime: number }).currentTime);
  const videosOf = async (page: WatchedPage) => {
    const id = new URL(page.url(), lab.address).pathname.split('/').at(-1) ?? '';
    return lab.ask(videoRoutes.trialVideos, { params: { ...inLab, id } });
  };

  it('wait for a turn, with the clocks compared, and say so', async () => {
    await camera.goto('/lab/camera/A');
    await camera.getByText('Nobody is on the rig.').waitFor();
    await camera.getByText('Filming begins by itself when somebody on the rig is ready to pull').waitFor();
    await camera.getByText(/^The clocks agree within \d+\.\d ms\.$/).waitFor();
    await camera.getByText('not filming').waitFor();
    expect(await seriousFindings(camera)).toEqual([]);
  });

  it('are made by themselves while an effort is made', async () => {
    await floor.goto('/lab/floor/A');
    await floor.getByRole('button', { name: 'Take the controls' }).first().click();
    await floor.getByText('You hold the controls').waitFor();
    await runToPhase(floor, 'ready', patience);
    await camera.getByText('Filming. It ends two seconds after the pull.').waitFor();
    expect(await camera.locator('.film-light').textContent()).toBe('filming');
    expect(await seriousFindings(camera)).toEqual([]);
    await runToPhase(floor, 'verdict', patience);
    address = (await floor.locator('.floor-verdict-acts a').getAttribute('href')) ?? '';
    expect(address).toMatch(/^\/lab\/trials\/./);
  });

  it('belong to a trial that is waited for, as one just announced may not be written yet', async () => {
    let written = false;
    await trial.route(/\/api\/labs\/lab\/trials\/[^/]+$/, async (route) => {
      if (written) return route.continue();
      const missing = { type: 'about:blank', title: 'Not found', status: 404, code: 'not-found', detail: '', next: '' };
      return route.fulfill({ status: 404, contentType: 'application/problem+json', body: JSON.stringify(missing) });
    });
    await trial.goto(address);
    await trial.getByText('This trial is not there yet.').waitFor();
    expect(await trial.getByRole('alert').count()).toBe(0);
    written = true;
    await trial.getByRole('heading', { level: 1, name: /Wren Alder/ }).waitFor();
    await trial.unroute(/\/api\/labs\/lab\/trials\/[^/]+$/);
  });

  it('come to stand beside the curve, and can be searched', async () => {
    await trial.locator('.film video').waitFor();
    await camera.getByText('1 film is safe at the station.').waitFor();
    const { length, end, duration } = await trial.locator('.film video').evaluate(async (element) => {
      const video = element as unknown as {
        readyState: number;
        duration: number;
        seekable: { length: number; end(i: number): number };
        addEventListener(name: string, done: () => void): void;
      };
      if (video.readyState < 1) await new Promise<void>((done) => video.addEventListener('loadedmetadata', done));
      return { length: video.seekable.length, end: video.seekable.end(0), duration: video.duration };
    });
    expect(length).toBe(1);
    expect(Number.isFinite(duration)).toBe(true);
    expect(end).toBeCloseTo(duration, 3);
    const { videos } = await videosOf(trial);
    expect(videos).toMatchObject([{ state: 'stored', nudge: 0 }]);
    expect(videos[0]?.frames.length).toBeGreaterThan(10);
    // Plates up to twice as fast as life, as the machine can: a second of the film is more than one of the recording.
    expect(videos[0]?.sync?.rate).toBeGreaterThan(1);
    await trial.getByText(/^Film and curve agree within \d+ ms$/).waitFor();
    expect(await seriousFindings(trial)).toEqual([]);
  });

  it('follow the cursor of the curve, and move it', async () => {
    const [video] = (await videosOf(trial)).videos;
    const { start, rate } = video?.sync ?? { start: Number.NaN, rate: Number.NaN };
    await trial.locator('.plot').focus();
    await trial.keyboard.press('End');
    await expect.poll(cursorNow, { timeout: patience }).toBeGreaterThan(0);
    const curveEnd = await cursorNow();
    // To the last event and back: the film is somewhere else each time. A camera that a busy machine lets wait takes few
    // pictures, so it goes back until two more belong to the curve.
    await trial.keyboard.press('p');
    await becomes(({ frame }) => frame > 1);
    const end = await frameNow();
    await expect
      .poll(
        async () => {
          await trial.keyboard.press('p');
          const { frame } = await frameNow();
          return frame < end.frame && start + rate * (video?.frames[frame + 1] ?? Number.NaN) < curveEnd;
        },
        { timeout: patience },
      )
      .toBe(true);
    const later = await frameNow();
    // Worked out once more from what the station tells: of all frames this one was taken closest to the cursor.
    const cursor = await cursorNow();
    const away = (video?.frames ?? []).map((frame) => Math.abs(start + rate * frame - cursor));
    expect(away.indexOf(Math.min(...away)) + 1).toBe(later.frame);
    expect(later.at).toBeCloseTo(start + rate * (video?.frames[later.frame - 1] ?? Number.NaN), 2);
    await expect.poll(playerNow, { timeout: patience }).toBeGreaterThan(0);
    const shown = await playerNow();

    // Frame by frame, by key and by button; the cursor goes along.
    await trial.keyboard.press('.');
    await becomes(({ frame }) => frame === later.frame + 1);
    await expect.poll(playerNow, { timeout: patience }).toBeGreaterThan(shown);
    expect(await cursorNow()).toBeCloseTo((await frameNow()).at, 2);
    await trial.getByRole('button', { name: 'Next frame' }).click();
    await becomes(({ frame }) => frame === later.frame + 2);
    expect(await cursorNow()).toBeCloseTo((await frameNow()).at, 2);
    await trial.getByRole('button', { name: 'Frame before' }).click();
    await trial.keyboard.press(',');
    await becomes(({ frame }) => frame === later.frame);

    // Playing takes the cursor along as well, to the end of the film, which the curve does not reach.
    await trial.keyboard.press('v');
    await becomes(({ frame, of }) => frame === of);
    await trial.getByText('after the curve has ended').waitFor();
    await expect.poll(cursorNow, { timeout: patience }).toBeGreaterThan(later.at);
    await trial.getByRole('button', { name: 'Play', exact: true }).waitFor();
  });

  it('are moved against the curve by hand; the size is shown, kept, and in the audit trail with who did it', async () => {
    await plotAt(trial);
    const before = await frameNow();
    await trial.getByText(/^Film and curve agree within/).click();
    await trial.getByText('not moved by hand').waitFor();
    const later = trial.getByRole('button', { name: 'Film later' });
    // The cursor stays where it reads; the film beside it shows an earlier picture, at once or, where the camera had to wait
    // for longer than from one picture to the next, after some presses more.
    await expect
      .poll(
        async () => {
          await later.click();
          return (await frameNow()).frame < before.frame;
        },
        { timeout: patience },
      )
      .toBe(true);
    const said = (await trial.locator('.film-nudge [role=status]').textContent()) ?? '';
    expect(said).toMatch(/^moved by hand: \+\d+ ms$/);
    expect(await seriousFindings(trial)).toEqual([]);
    await trial.getByRole('button', { name: 'Keep it there' }).click();
    await trial.getByRole('button', { name: 'Take back to 0 ms' }).waitFor();
    await trial.reload();
    await trial.locator('.film-more summary', { hasText: said }).waitFor();
    const [video] = (await videosOf(trial)).videos;
    expect(Math.round(1000 * (video?.nudge ?? 0))).toBe(Number(/\d+/.exec(said)?.[0]));
    const { entries } = await lab.ask(routes.audit, { params: inLab, query: { offset: 0, limit: 50 } });
    expect(entries.filter(({ action }) => action === 'video.nudge').map(({ who }) => who)).toEqual(['Rowan']);
  });

  it('are kept as long as the lab decides', async () => {
    await camera.getByText('Keeping films').click();
    const days = camera.getByLabel('Remove films after so many days');
    await days.fill('0');
    await camera.getByText('Enter a whole number from 1 to 3650, or nothing.').waitFor();
    expect(await camera.getByRole('button', { name: 'Save' }).isDisabled()).toBe(true);
    await days.fill('30');
    await camera.getByRole('button', { name: 'Save' }).click();
    await camera.getByText('Saved.').waitFor();
    expect(await seriousFindings(camera)).toEqual([]);
    expect(await lab.ask(videoRoutes.videoSettings, { params: inLab })).toEqual({
      keepDays: 30,
      minors: 'with-consent',
    });
    await trial.reload();
    await trial.locator('.film-more summary').click();
    await trial.getByText(/^Kept until \d+ \w+ \d{4}$/).waitFor();
  });

  it('are removed only after a question and with a reason, and the trial says so', async () => {
    await trial.getByRole('button', { name: 'Remove the film' }).click();
    const dialog = trial.getByRole('dialog', { name: 'Remove the film' });
    expect(await dialog.getByRole('button', { name: 'Remove it' }).isDisabled()).toBe(true);
    expect(await seriousFindings(trial)).toEqual([]);
    await dialog.getByRole('button', { name: 'Keep it' }).click();
    expect((await videosOf(trial)).videos).toMatchObject([{ state: 'stored' }]);
    await trial.getByRole('button', { name: 'Remove the film' }).click();
    await dialog.getByLabel('Why is it removed?').fill('asked for by the athlete');
    await dialog.getByRole('button', { name: 'Remove it' }).click();
    await trial.getByText(/^The film was removed on .*: asked for by the athlete \(Rowan\)\.$/).waitFor();
    expect(await trial.locator('.film video').count()).toBe(0);
    expect((await videosOf(trial)).videos).toMatchObject([{ state: 'dropped', frames: [] }]);
    expect(await seriousFindings(trial)).toEqual([]);
  });

  it('are not made of a minor without a consent on record, which the camera says in words', async () => {
    const { entries } = await lab.ask(liveRoutes.day, { params: { ...inLab, id: lab.day.id } });
    const entry = entries.find(({ person }) => person.name === 'Plover Dunn');
    const readiness = { pain: false, injury: false, screened: true, consent: true, warmedUp: true, note: '' };
    await lab.ask(liveRoutes.changeEntry, {
      params: { ...inLab, id: entry?.id ?? '' },
      body: { readiness, by: 'Rowan' } as never,
    });
    await floor.getByRole('button', { name: 'End turn' }).click();
    await runToPhase(floor, 'ready', patience);
    await camera.getByText('Not filmed: under 18, and no consent in force is on record.').waitFor();
    await camera.getByText('Nothing is filmed in this turn.').waitFor();
    expect(await seriousFindings(camera)).toEqual([]);
    await runToPhase(floor, 'verdict', patience);
    expect(await camera.locator('.film-light').textContent()).toBe('not filming');
    await camera.getByText('1 film is safe at the station.').waitFor();
    await floor.locator('.floor-verdict-acts a').waitFor();
    const theirs = (await floor.locator('.floor-verdict-acts a').getAttribute('href')) ?? '';
    expect(theirs).not.toBe(address);
    await trial.goto(theirs);
    await trial.getByRole('heading', { level: 1, name: /Plover Dunn/ }).waitFor();
    expect((await videosOf(trial)).videos).toEqual([]);
    for (const page of [camera, floor, trial]) expect(page.troubles).toEqual([]);
  });
});

/** Puts the cursor of the curve to the last event, which the film shows. */
async function plotAt(trial: WatchedPage): Promise<void> {
  await trial.locator('.plot').focus();
  for (const key of ['End', 'p']) await trial.keyboard.press(key);
}
