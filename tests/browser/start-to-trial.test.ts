import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { practiceDay } from './practice-day.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();

describe.skipIf(reason !== undefined)(`from the start to a trial of the example${reason ? ` (${reason})` : ''}`, () => {
  let station: StationUnderTest;
  let page: WatchedPage;
  beforeAll(async () => {
    station = await stationUnderTest();
    page = await station.page();
  });
  afterAll(() => station?.close());

  it('offers the four ways to begin on the first run', async () => {
    await page.goto('/');
    await page.getByRole('heading', { name: 'What now?' }).waitFor();
    await page.getByRole('heading', { name: 'Read the guide' }).waitFor();
    for (const name of ['Try the example squad', 'Set up my lab', 'Import files', 'Read the guide'])
      expect(await page.getByRole('heading', { name }).count(), name).toBe(1);
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('explains what a session is where there is none', async () => {
    await page.goto('/lab/sessions');
    await page.getByRole('heading', { name: 'This lab is not set up yet' }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('reads the guide without leaving the station', async () => {
    await page.goto('/guide');
    await page.getByRole('heading', { name: 'Guide', level: 1 }).waitFor();
    expect(await page.getByText('Stop at once on pain').count()).toBe(1);
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('builds the example by its address, with its true progress, and lists it marked as an example', async () => {
    await page.goto('/?demo=fernwater');
    await page.getByRole('progressbar', { name: 'Building the example' }).waitFor();
    await page.getByText(/^\d+ of 203 sessions$/).waitFor();
    await page.waitForURL('**/example/sessions', { timeout: 280_000 });
    await page.getByRole('table').waitFor();
    expect(await page.getByText('203 sessions').count()).toBe(1);
    expect(await page.locator('header .example-mark').textContent()).toBe('example');
    expect(await seriousFindings(page)).toEqual([]);
  }, 300_000);

  it('goes on to older pages and filters by name and test', async () => {
    await page.getByRole('button', { name: 'Older' }).click();
    await page.getByText('51 to 100 of 203').waitFor();
    await page.getByLabel('Search').fill('okonk');
    await page.getByRole('heading', { name: 'No session fits' }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByLabel('Search').fill('almgren');
    await page.waitForURL(/find=almgren/);
    await page.getByLabel('Test').selectOption('imtp');
    await page.waitForURL(/test=imtp/);
    await page.waitForFunction(() => {
      const { document } = globalThis as unknown as {
        document: { querySelectorAll(css: string): ArrayLike<{ textContent: string }> };
      };
      const rows = Array.from(document.querySelectorAll('tbody tr'));
      return rows.length > 0 && rows.every((row) => row.textContent.includes('Yuki Almgren'));
    });
  });

  it('opens a session by keyboard and from it a trial', async () => {
    await page.locator('tbody a').first().focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /Yuki Almgren/ }).waitFor();
    expect(await page.getByText('Peak force of the trials that count').count()).toBe(1);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Trial 1' }).click();
    await page.waitForURL('**/example/trials/*');
    await page.getByRole('heading', { level: 1, name: /Yuki Almgren/ }).waitFor();
    expect(page.troubles).toEqual([]);
  });

  practiceDay(() => station);
});
