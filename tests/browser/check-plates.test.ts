import { call, liveRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
const lab = { lab: 'lab' as const };
const by = 'Rowan';

describe.skipIf(reason !== undefined)(
  `checking worn virtual plates${reason ? ` (${reason})` : ''}`,
  { timeout: 600_000 },
  () => {
    let station: StationUnderTest;
    let page: WatchedPage;
    const ask = (route: Parameters<typeof call>[2], input: object = {}) =>
      call(fetch as never, station.address.replace(/\/$/, ''), route, input as never) as Promise<never>;
    let rig = '';
    beforeAll(async () => {
      station = await stationUnderTest();
      await ask(routes.createLab as never, { params: lab, body: { name: 'Boathouse' } });
      // As the button on the Rigs page describes them, but faster than life.
      const plate = (side: 'left' | 'right') => ({
        ...{ name: side, plate: side, side, axis: 'z', unit: 'N', scale: 1, offset: 0, rawRange: [-10_000, 10_000] },
      });
      const description = {
        ...{
          schema: 'sthene.source/1',
          name: 'Worn virtual plates',
          rate: 1000,
          channels: [plate('left'), plate('right')],
        },
        transport: { kind: 'virtual', script: 'fernwater-worn', seed: 7, speed: 8 },
      };
      const source: { id: string } = await ask(liveRoutes.createSource as never, {
        params: lab,
        body: { description, by },
      });
      const draft = { name: 'Worn rig', letter: 'A', shape: 'circle', sources: [source.id], notes: '', by };
      rig = ((await ask(liveRoutes.createRig as never, { params: lab, body: draft })) as { id: string }).id;
      page = await station.page({ viewport: { width: 1180, height: 820 } });
      page.setDefaultTimeout(90_000);
      await page.addInitScript(`localStorage.setItem('sthene.signed-as', '${by}')`);
    });
    afterAll(() => station?.close());

    /** Two pulls of one athlete on the plates as they are, before anybody has checked them. */
    async function session(): Promise<void> {
      const athlete = { givenName: 'Wren', familyName: 'Alder', birthDate: '1999-04-01' };
      const { id }: { id: string } = await ask(routes.createPerson as never, { params: lab, body: athlete });
      await ask(liveRoutes.addGate as never, {
        params: { ...lab, id },
        body: { kind: 'screening', granted: true, limb: 'both', from: '2026-01-01', note: '', by },
      });
      const efforts = [{ kind: 'maximal' }, { kind: 'maximal' }];
      const tests = [{ test: 'imtp', efforts, rest: { minimum: 20, maximum: 600 } }];
      const body = { date: '2026-03-02', tests, rigs: [rig], people: [id], handsFree: true, by };
      const day: { id: string } = await ask(liveRoutes.createDay as never, { params: lab, body });
      const there = { params: { ...lab, id: day.id } };
      await ask(liveRoutes.openDay as never, { ...there, body: { by } });
      await expect
        .poll(
          async () =>
            ((await ask(liveRoutes.day as never, there)) as { entries: { state: string }[] }).entries[0]?.state,
          {
            ...{ timeout: 180_000, interval: 500 },
          },
        )
        .toBe('done');
      await ask(liveRoutes.closeDay as never, { ...there, body: { by } });
    }

    it('comes too late for one session, on the plates as they are', session);

    it('is begun from the Rig page, step by step', async () => {
      await page.goto(`/lab/rig/${rig}`);
      await page.getByText('No check with known masses has been made.').waitFor();
      await page.getByRole('button', { name: 'Open the rig' }).click();
      await page.getByRole('link', { name: 'Check with known masses' }).click();
      await page.getByRole('heading', { name: 'Begin a check' }).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      await page.getByLabel('Series, each up and down').selectOption('1');
      const begin = page.getByRole('button', { name: 'Zero the empty plates and begin' });
      // The plates must have rested for three seconds first.
      await expect
        .poll(
          async () => {
            if (await begin.isVisible()) await begin.click().catch(() => {});
            return page.getByRole('heading', { name: 'Step 1 of 22' }).isVisible();
          },
          { timeout: 60_000, interval: 1000 },
        )
        .toBe(true);
      await page.getByText('Plate left: leave it empty').waitFor();
      expect(await seriousFindings(page)).toEqual([]);
    });

    it('is tapped by somebody else, where there are only virtual plates', async () => {
      await page.getByText('Further looks').click();
      const found = page.locator('[data-quantity="frequency"]');
      // Only the last seconds are looked at, and these plates run fast: who comes too late taps again.
      await expect
        .poll(
          async () => {
            await page.getByRole('button', { name: 'Let plate right be tapped' }).click();
            // 1 s of the plates' time.
            await page.waitForTimeout(150);
            await page.getByRole('button', { name: 'I tapped plate right' }).click();
            return found.waitFor({ timeout: 5000 }).then(
              () => true,
              () => false,
            );
          },
          { timeout: 90_000 },
        )
        .toBe(true);
      expect(await found.textContent()).toMatch(/8[123]\u00a0Hz.*Look at it/);
      expect(await seriousFindings(page)).toEqual([]);
      await page.getByText('Further looks').click();
    });

    it('reads each step when the plate rests, takes one back, and finds both faults', async () => {
      const read = page.getByRole('button', { name: 'Read', exact: true });
      const put = page.getByRole('button', { name: 'Let these masses be put on' });
      const step = async (n: number) => {
        await page.getByRole('heading', { name: `Step ${n} of 22` }).waitFor();
        await put.click();
        const next = page.getByRole('heading', { name: n === 22 ? 'All steps are read.' : `Step ${n + 1} of 22` });
        // What is read too early, while the new load comes on, is refused as far off.
        await expect
          .poll(
            async () => {
              if (await next.isVisible()) return true;
              if (await read.isEnabled().catch(() => false)) await read.click({ timeout: 500 }).catch(() => {});
              return next.isVisible();
            },
            { timeout: 90_000, interval: 400 },
          )
          .toBe(true);
      };
      await step(1);
      await step(2);
      await page.getByRole('button', { name: 'Take the last reading back' }).click();
      for (let n = 2; n <= 22; n++) await step(n);
      const keep = page.getByRole('button', { name: 'Keep the check', exact: true });
      await expect.poll(() => keep.isEnabled()).toBe(true);
      await keep.focus();
      await page.keyboard.press('Enter');
      await page.getByRole('heading', { name: 'What the check says' }).waitFor();
      await page.getByText('A limit is broken: repair or correct it before anybody is tested.').waitFor();
      const row = (plate: string, quantity: string) =>
        page.locator(`[data-quantity="${quantity}"] [data-plate="${plate}"]`).last();
      expect(await row('left', 'gain').textContent()).toMatch(/\+1\.2\d.*Too much/);
      expect(await row('right', 'hysteresis').textContent()).toContain('Too much');
      expect(await row('left', 'hysteresis').textContent()).toContain('Good');
      expect(await row('right', 'gain').textContent()).toContain('Good');
      await page.getByText('There is no trend yet: it takes a second check.').waitFor();
      for (const theme of ['light', 'dark', 'contrast']) {
        await page.evaluate(`document.documentElement.dataset.theme = '${theme}'`);
        expect(await seriousFindings(page), theme).toEqual([]);
      }
    });

    it('is named on the Start screen until somebody acts on it', async () => {
      await page.goto('/');
      const line = page.getByRole('region', { name: 'Plate check due' });
      await line.getByText(/^failed on/).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      await line.getByRole('link', { name: 'Rig A, Worn rig' }).click();
      await page.getByRole('heading', { name: 'What the check says' }).waitFor();
    });

    it('adopts the correction, and sees what it does to the last session before anything is changed', async () => {
      await page.getByLabel('left: shows +1.2').check();
      await page.getByLabel('Reason').fill('Checked with the club masses.');
      await page.getByRole('button', { name: 'Adopt the correction' }).click();
      await page.getByText(/^In force: left \+1\.2/).waitFor();
      await page.getByLabel('From').fill('2020-01-01');
      await page.getByRole('button', { name: 'Show what would change' }).click();
      const table = page.getByRole('region', { name: 'Earlier sessions' }).locator('tbody tr');
      await table.first().waitFor();
      const [who, ...numbers] = await table.first().locator('td').allTextContents();
      const [trials, before, after] = numbers.map((text) => Number(text.replace(/[^0-9.]/g, '')));
      expect(who).toMatch(/\p{L}/u);
      expect(trials).toBe(2);
      // Half of 1.2 %: half of the force is on the left plate.
      expect((100 * ((before ?? 0) - (after ?? 0))) / (after ?? 1)).toBeGreaterThan(0.4);
      expect((100 * ((before ?? 0) - (after ?? 0))) / (after ?? 1)).toBeLessThan(0.8);
      expect(await seriousFindings(page)).toEqual([]);
      await page.locator('#effect-reason').fill('Measured before the correction.');
      await page.getByRole('button', { name: 'Judge 1 session again' }).click();
      await page.getByText('1 session was judged again.').waitFor();
      await page.goto(`/lab/rig/${rig}`);
      await page.getByText('Corrected: left.').waitFor();
      expect(page.troubles).toEqual([]);
    });

    it('hands out the certificate page', async () => {
      await page.goto(`/lab/rig/${rig}/check`);
      await page.getByRole('heading', { name: 'What the check says' }).waitFor();
      await page
        .getByRole('link', { name: /report|hand out/i })
        .first()
        .click();
      const preview = page.frameLocator('iframe[title^="Preview"]');
      await preview.getByText('Outside the limits').waitFor();
      await preview.getByText('no calibration certificate').waitFor();
    });

    it('reads on a phone', async () => {
      const phone = await station.page({ viewport: { width: 390, height: 844 } });
      await phone.goto(`/lab/rig/${rig}/check`);
      await phone.getByRole('heading', { name: 'What the check says' }).waitFor();
      const wide = await phone.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
      expect(wide).toBeLessThanOrEqual(0);
      expect(await seriousFindings(phone)).toEqual([]);
    });
  },
);
