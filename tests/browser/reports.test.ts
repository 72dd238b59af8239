import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import type { Download, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { labWithoutCurves } from '../../apps/station/test/lab-without-curves.ts';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();

/** The file that a click hands out. */
async function fileOf(page: Page, act: () => Promise<void>): Promise<{ name: string; bytes: Uint8Array }> {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  const path = await (download as Download).path();
  return { name: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(path)) };
}
const beginning = (bytes: Uint8Array, length = 5) => Buffer.from(bytes.subarray(0, length)).toString('latin1');

describe.skipIf(reason !== undefined)(`reports${reason ? ` (${reason})` : ''}`, { timeout: 120_000 }, () => {
  let station: StationUnderTest;
  let page: WatchedPage;
  beforeAll(async () => {
    station = await stationUnderTest();
    await labWithoutCurves(station.dataFolder);
    page = await station.page({ acceptDownloads: true, permissions: ['clipboard-read', 'clipboard-write'] });
    await page.addInitScript("localStorage.setItem('sthene.signed-as', 'Wren')");
  });
  afterAll(() => station?.close());

  it('are chosen, looked at and taken along', async () => {
    await page.goto('/lab/reports');
    await page.getByRole('heading', { name: 'Choose first' }).waitFor();
    await page.getByLabel('Athlete', { exact: true }).selectOption({ label: 'Oakes Imre (FW01)' });
    const preview = page.frameLocator('iframe[title^="Preview"]');
    await preview.getByRole('heading', { name: 'Imre Oakes (FW01)' }).waitFor();
    // As tall as what it says: nothing to scroll inside.
    const frame = page.locator('iframe');
    await expect.poll(async () => (await frame.boundingBox())?.height ?? 0).not.toBe(1002);
    const file = await fileOf(page, () => page.getByRole('link', { name: 'Save as PDF' }).click());
    expect([file.name, beginning(file.bytes)]).toEqual([expect.stringMatching(/^fw01-imtp-.*\.pdf$/), '%PDF-']);
    const picture = await fileOf(page, () => page.getByRole('link', { name: /as PNG$/ }).click());
    expect(beginning(picture.bytes, 4)).toBe('\u0089PNG');
    await page.getByRole('button', { name: /^Copy the table/ }).click();
    await page.getByText('Copied. Paste it').waitFor();
    expect(await page.evaluate('navigator.clipboard.readText()')).toMatch(/^Session\tValue, N\tSD/);
    for (const theme of ['light', 'dark', 'contrast']) {
      await page.evaluate(`document.documentElement.dataset.theme = '${theme}'`);
      expect(await seriousFindings(page), theme).toEqual([]);
    }
    expect(page.troubles).toEqual([]);
  });

  it('come as a page for each athlete; who has none is named and takes no other away', async () => {
    await page.goto('/lab/reports?metric=peak_force_relative');
    await page.getByText('A page for each athlete').click();
    await page.getByRole('button', { name: 'Make 3 pages' }).click();
    await page.getByText('1 page made.').waitFor();
    await page.getByText('2 athletes without a page:').waitFor();
    expect(await page.getByText('report-mass-of-minor').count()).toBe(2);
    const zip = await fileOf(page, () => page.getByRole('button', { name: 'Save 1 page as ZIP' }).click());
    const pages = Object.entries(unzipSync(zip.bytes));
    expect(pages.map(([name, bytes]) => [name, beginning(bytes)])).toEqual([['FW01-Oakes-Imre.pdf', '%PDF-']]);
  });

  it('carry the name that the lab gives them, and refuse a logo that is none', async () => {
    await page.goto('/lab/reports?kind=squad&language=de');
    const preview = page.frameLocator('iframe[title^="Preview"]');
    await preview.getByText('Fernwater Rowing Club').waitFor();
    await page.getByText('Name and logo on every page').click();
    await page.getByLabel('Name of the lab').fill('Boathouse laboratory');
    await page.getByRole('button', { name: 'Save for all reports' }).click();
    await preview.getByText('Boathouse laboratory').waitFor();
    const text = { name: 'logo.png', mimeType: 'image/png', buffer: Buffer.from('no picture') };
    await page.getByLabel('Logo', { exact: true }).setInputFiles(text);
    await page.getByRole('button', { name: 'Save for all reports' }).click();
    await page.getByText('logo-not-an-image').waitFor();
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('fit a phone', async () => {
    const phone = await station.page({ viewport: { width: 390, height: 844 }, hasTouch: true });
    await phone.goto('/lab/reports?kind=reliability');
    await phone.getByRole('link', { name: 'Save as PDF' }).waitFor();
    const wide = 'document.documentElement.scrollWidth - document.documentElement.clientWidth';
    expect(await phone.evaluate(wide)).toBe(0);
    await phone.context().close();
  });
});
