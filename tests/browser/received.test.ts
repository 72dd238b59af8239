import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
const table = `Name,Date,Trial,Peak force (kN),RFD 0-100 ms (N/s),Jump height (cm)
Imre Oakes,3/4/2019,1,2.481,10250,31
Imre Oakes,3/4/2019,2,2.519,very good,32
Tamsin Ålund,3/4/2019,1,1.902,7800,28
`;

describe.skipIf(reason !== undefined)(`results without curves${reason ? ` (${reason})` : ''}`, () => {
  let station: StationUnderTest;
  let page: WatchedPage;
  beforeAll(async () => {
    station = await stationUnderTest();
    page = await station.page({ viewport: { width: 390, height: 844 }, hasTouch: true });
  });
  afterAll(() => station?.close());

  it('go from the drop to an athlete’s page, and back out again, on a phone', async () => {
    await page.goto('/lab/import');
    const file = { name: 'earlier.csv', mimeType: 'text/csv', buffer: Buffer.from(table) };
    await page.setInputFiles('input[type=file]', [file]);
    await page.getByRole('link', { name: 'Bring in results without curves' }).click();
    const go = page.getByRole('button', { name: /^(Import \d|Nothing)/ });
    const asked = page.getByText('Answer the question above', { exact: false });
    await asked.waitFor();
    expect(await go.isDisabled()).toBe(true);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByLabel('Days are written').selectOption('dmy');
    await page.getByText('Choose the test.', { exact: true }).waitFor();
    await page.getByLabel('Test', { exact: true }).selectOption('imtp');
    await page.getByText('Say by which method', { exact: false }).waitFor();
    await page.getByLabel('Nobody knows').check();
    await page.getByText('Decide who the people are.').waitFor();
    await page.getByRole('button', { name: 'Add all 2 unknown ones' }).click();
    await page.getByLabel('Who Tamsin Ålund is').selectOption('skip');
    await page.getByText('Sign with your name.').waitFor();
    await page.getByLabel('Signed by').fill('Sam Lindqvist');
    expect(await page.getByText('cell-not-a-number').count()).toBe(1);
    expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBe(0);
    await page.getByRole('button', { name: 'Import 3 values' }).click();
    await page.getByRole('heading', { name: '3 values imported' }).waitFor();
    await page.getByRole('link', { name: 'Open the first session' }).click();
    await page.getByText('Results only, without curves').waitFor();
    expect(await page.getByText('2.481 kN').count()).toBe(1);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Imre Oakes' }).click();
    await page.getByRole('heading', { name: /not known, means of the trials/ }).waitFor();
    await page.getByText('compare them with each other only', { exact: false }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await page.goto('/lab/import/received');
    await page.getByRole('button', { name: 'Take back' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Take back' }).click();
    await page.getByRole('button', { name: 'Put back' }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await page.goto('/lab/sessions');
    await page.getByRole('heading', { name: 'No sessions yet' }).waitFor();
    expect(page.troubles).toEqual([]);
  });
});
