import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fillSmallLab, withLab } from '../../apps/station/test/filled-lab.ts';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();

describe.skipIf(reason !== undefined)(
  `the method of a lab${reason ? ` (${reason})` : ''}`,
  { timeout: 180_000 },
  () => {
    let station: StationUnderTest;
    let page: WatchedPage;
    beforeAll(async () => {
      station = await stationUnderTest();
      await withLab(station.dataFolder, (lab) => fillSmallLab(lab, 4));
      page = await station.page();
    });
    afterAll(() => station?.close());

    it('is made from another one, tried on trials before it is kept, and says what changes', async () => {
      await page.goto('/lab/methods');
      await page.getByRole('heading', { name: 'The method of this lab' }).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      await page.getByRole('link', { name: 'Sthene standard', exact: true }).click();
      await page.getByLabel('Who is acting?').fill('Rowan');
      await page.keyboard.press('Enter');
      await page.getByRole('link', { name: 'Make a method from it' }).click();
      await page.getByText('Nothing yet. Change what is computed.').waitFor();
      await page.getByLabel('Name', { exact: true }).fill('Boathouse');
      await page.getByLabel('Rule', { exact: true }).selectOption('fixed-newton-75');
      await page.getByRole('row', { name: /^Onset rule/ }).waitFor();
      await page.getByRole('button', { name: 'Try', exact: true }).click();
      await page.getByRole('heading', { name: 'Values before and after' }).waitFor();
      // A draft survives a reload.
      await page.reload();
      await page.getByText('You had begun to change this.').waitFor();
      expect(await page.getByLabel('Name', { exact: true }).inputValue()).toBe('Boathouse');
      expect(await seriousFindings(page)).toEqual([]);
      await page.getByRole('button', { name: 'Keep this method' }).click();
      await page.getByRole('heading', { name: 'Boathouse, version 1', level: 1 }).waitFor();
    });

    it('judges the archive again, compares, and is adopted with a reason', async () => {
      await page.getByRole('button', { name: 'Judge the archive again' }).click();
      await page.getByRole('button', { name: 'Start' }).click();
      await page.getByText('to be decided').waitFor({ timeout: 60_000 });
      await page.getByText('12 of 12').waitFor();
      await page.getByRole('link', { name: 'Force at 100 ms', exact: true }).click();
      await page.getByRole('heading', { name: 'Force at 100 ms' }).waitFor();
      expect(new URL(page.url()).search).toBe('?metric=force_at_100');
      await page.getByText('Upper limit of agreement').waitFor();
      expect(await page.locator('.pair-point').count()).toBeGreaterThan(10);
      await page.getByLabel('Compare', { exact: true }).selectOption('session');
      await page.getByText('4 pairs.').or(page.getByText('3 pairs.')).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      await page.getByRole('button', { name: 'Adopt', exact: true }).click();
      const dialog = page.getByRole('dialog');
      await dialog.getByRole('button', { name: 'Adopt' }).click();
      await dialog.getByText('Say why in a few words.').waitFor();
      await dialog.getByLabel('Why').fill('Agreed with the coaches.');
      await dialog.getByRole('button', { name: 'Adopt' }).click();
      await page.getByText(/^Adopted by Rowan, .*: Agreed with the coaches\.$/).waitFor();
      await page.getByRole('link', { name: 'Methods' }).first().click();
      await page.locator('.method-current', { hasText: 'Boathouse, version 1' }).waitFor();
      await page.goto('/lab/sessions');
      await page.getByRole('row').nth(1).waitFor();
      expect(page.troubles).toEqual([]);
    });
  },
);
