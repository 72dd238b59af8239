import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../example-lab.ts';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();

describe.skipIf(reason !== undefined)(
  `an athlete followed${reason ? ` (${reason})` : ''}`,
  { timeout: 120_000 },
  () => {
    let station: StationUnderTest;
    let page: WatchedPage;
    beforeAll(async () => {
      station = await stationUnderTest(undefined, [], await exampleData());
      page = await station.page();
    });
    afterAll(() => station?.close());

    it('is found in the list and says one word with what it rests on', async () => {
      await page.goto('/example/athletes');
      await page.getByText('chance alone would give').waitFor();
      await page.getByRole('button', { name: 'Sort by: Newest' }).click();
      await page.locator('tbody tr').first().filter({ hasText: 'Rafael' }).waitFor();
      await page.getByRole('button', { name: 'Sort by: Newest' }).click();
      await page.locator('tbody tr').first().filter({ hasText: 'Yuki' }).waitFor();
      await page.getByLabel('Squad', { exact: true }).selectOption({ label: 'Development (3)' });
      await page.getByRole('status').filter({ hasText: '3 athletes' }).waitFor();
      await page.getByLabel('Search').fill('sorens fw10');
      await page.getByRole('status').filter({ hasText: '1 athlete' }).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      await page.getByRole('link', { name: 'Emeka Sorensen' }).click();
      await page.getByRole('heading', { name: /Emeka Sorensen/, level: 1 }).waitFor();
      await page.getByRole('heading', { name: 'The newest session, 28 March 2026' }).waitFor();
      await page.getByLabel('Held against').selectOption('first');
      await page.locator('.follow-word', { hasText: /stronger/i }).waitFor();
      await page.getByText('What this rests on').click();
      await page.getByText('Smallest true gain this test confirms four times in five').waitFor();
      expect(await page.locator('.follow-plot a').count()).toBe(8);
      expect(await page.getByRole('row').count()).toBe(9);
      expect(await seriousFindings(page)).toEqual([]);
    });

    it('keeps test, value and reference in the address', async () => {
      await page.getByLabel('Value', { exact: true }).selectOption('time_to_peak');
      await page.getByRole('heading', { name: /Time to peak force over time/ }).waitFor();
      expect(new URL(page.url()).search).toBe('?test=imtp&metric=time_to_peak&against=first');
      await page.reload();
      await page.getByRole('heading', { name: /Time to peak force over time/ }).waitFor();
      expect(await page.getByLabel('Held against').inputValue()).toBe('first');
      expect(page.troubles).toEqual([]);
    });

    it('says how good the test is, in a table that can be taken along', async () => {
      await page.goto('/example/athletes');
      await page.getByRole('link', { name: 'Reliability' }).click();
      await page.getByRole('heading', { name: 'Reliability', level: 1 }).waitFor();
      await page.getByLabel('Newest sessions of each athlete').selectOption('3');
      await page.getByRole('row', { name: /^2 before to 1 before/ }).waitFor();
      expect(await page.getByRole('row', { name: /^ICC\(/ }).count()).toBe(6);
      await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
      await page.getByRole('button', { name: 'Copy as a table' }).click();
      await page.getByText('Copied. Paste it').waitFor();
      const copied = await page.evaluate(() =>
        (
          globalThis as unknown as { navigator: { clipboard: { readText(): Promise<string> } } }
        ).navigator.clipboard.readText(),
      );
      expect(copied).toMatch(/^Peak force, Isometric mid-thigh pull\nWhat\tValue\t/);
      expect(await seriousFindings(page)).toEqual([]);
      expect(page.troubles).toEqual([]);
    });

    it('says of somebody who has never been tested that there is nothing yet, and of an old address that nobody is there', async () => {
      const added = await fetch(`${station.address}api/labs/example/people`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ givenName: 'Wren', familyName: 'Alder' }),
      });
      const { id } = (await added.json()) as { id: string };
      await page.goto(`/example/athletes/${id}`);
      await page.getByText('No session yet.').waitFor();
      await page.goto('/example/athletes/nobody');
      await page.getByText('There is no such athlete.').waitFor();
    });
  },
);
