import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { type NamedFile, ownHeaderFile, voltsFile, wordsFile } from './files.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();

describe.skipIf(reason !== undefined)(`importing files${reason ? ` (${reason})` : ''}`, () => {
  let station: StationUnderTest;
  let page: WatchedPage;
  const own = ownHeaderFile('first pull.csv', 3);
  const volts = voltsFile('amplifier.csv', 4);
  const add = (...files: NamedFile[]) => page.setInputFiles('input[type=file]', files);
  const athlete = () => page.getByRole('combobox', { name: 'Athlete' });
  beforeAll(async () => {
    station = await stationUnderTest();
    page = await station.page();
  });
  afterAll(() => station?.close());

  it('takes a CSV with our own header from the drop to an explained peak force without a question', async () => {
    await page.goto('/lab/import');
    await page.getByLabel('Name of your lab').fill('Harbour lab');
    expect(await seriousFindings(page)).toEqual([]);
    await add(own.file);
    // straight to the third step: the columns are understood
    await page.getByRole('heading', { name: 'Which test, whose?' }).waitFor();
    await page.getByText('1 file, 1 trial: 1 would count').waitFor();
    expect(await page.getByLabel('Test', { exact: true }).inputValue()).toBe('imtp');
    expect(await seriousFindings(page)).toEqual([]);
    await athlete().fill('Ines Okoro');
    await page.getByLabel('Your name').fill('Sam Lindqvist');
    await page.getByRole('button', { name: 'Import 1 trial' }).click();
    const open = page.getByRole('link', { name: 'Open the trial' });
    await open.waitFor();
    expect(await open.evaluate((link) => link === link.ownerDocument.activeElement)).toBe(true);
    expect(await seriousFindings(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await page.waitForURL('**/lab/trials/*');
    await page
      .getByRole('button', { name: /^Peak force\b/ })
      .first()
      .click();
    await page.getByText('Formula', { exact: true }).first().waitFor();
    const shown = (await page.locator('.curve figcaption').textContent()) ?? '';
    const peak = Number(/peaks at ([\d\s\u202f]+)/.exec(shown)?.[1]?.replace(/[^\d]/g, ''));
    // the simulation's own peak is known before plate noise; noise may only lift it by a few newtons
    expect(Math.abs(peak - own.peak)).toBeLessThan(25);
    expect(page.troubles).toEqual([]);
  });

  it('lists the new session under the name that was typed', async () => {
    await page.goto('/lab/sessions');
    await page.getByRole('link', { name: 'Ines Okoro' }).waitFor();
    expect(await page.getByRole('link', { name: 'Ines Okoro' }).count()).toBe(1);
    expect(await page.locator('header .lab-name').textContent()).toContain('Harbour lab');
  });

  it('recognises the same recording and lets it be skipped or kept twice', async () => {
    await page.goto('/lab/import');
    await add(own.file);
    await page.getByText('In the lab already', { exact: true }).waitFor();
    expect(await page.getByRole('link', { name: /Ines Okoro.*trial 1/ }).count()).toBe(1);
    expect(await page.getByRole('button', { name: 'Continue', exact: true }).isDisabled()).toBe(true);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByLabel('Keep both').check();
    await page.getByRole('button', { name: 'Continue with 1 file' }).click();
    await athlete().fill('ines');
    await page.keyboard.press('Enter');
    await page.getByText('Ines Okoro, IO01, 1 session').waitFor();
    await page.getByRole('button', { name: 'Import 1 trial' }).click();
    await page.getByRole('link', { name: 'Open the trial' }).waitFor();
  });

  it('makes nobody new while it does not know yet who is there', async () => {
    let answer = () => {};
    const asked = new Promise<void>((resolve) => {
      answer = resolve;
    });
    await page.route('**/people', async (route) => {
      await asked;
      await route.continue();
    });
    await page.goto('/lab/import');
    await add(ownHeaderFile('third pull.csv', 9).file);
    await athlete().fill('Ines Okoro');
    await page.getByText('Reading the list of athletes.').waitFor();
    expect(await page.getByRole('listbox').getByRole('option').count()).toBe(0);
    await athlete().fill('ines');
    await page.keyboard.press('Enter');
    expect(await page.getByText('New athlete').count()).toBe(0);
    answer();
    await page.getByText('Ines Okoro, IO01, 2 sessions').waitFor();
    await page.unroute('**/people');
  });

  it('says why when the list of athletes cannot be read, and reads it again', async () => {
    const other = await station.page();
    await other.route('**/people', (route) => route.abort());
    await other.goto('/lab/import');
    await other.setInputFiles('input[type=file]', [ownHeaderFile('third pull.csv', 9).file]);
    await other.getByRole('combobox', { name: 'Athlete' }).fill('Somebody');
    const again = other.getByRole('button', { name: 'Try again' });
    await again.waitFor();
    expect(await other.getByRole('listbox').getByRole('option').count()).toBe(0);
    await other.unroute('**/people');
    await again.click();
    await other.getByText('Added as a new athlete: given name Somebody.').waitFor();
    await other.close();
  });

  it('says what every format missed in a file nobody knows, and goes on with the others', async () => {
    await page.goto('/lab/import');
    const second = ownHeaderFile('second pull.csv', 8);
    await add(wordsFile, second.file);
    await page.getByText('No format recognises this file.').waitFor();
    await page.getByText('Ready', { exact: true }).waitFor();
    const unknown = page.locator('.file-row', { hasText: 'notes.txt' });
    for (const format of ['Text table', 'C3D', 'Parquet']) expect(await unknown.textContent()).toContain(format);
    expect(await unknown.textContent()).toContain('No rows of numbers');
    expect(await unknown.textContent()).toContain('format-not-recognised');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Continue with 1 of 2 files' }).click();
    await page.getByText('1 file, 1 trial').waitFor();
    // left here, it is offered again on the start screen
    await page.goto('/');
    await page.getByRole('link', { name: 'Go on with second pull.csv' }).click();
    await page.getByRole('heading', { name: 'Which test, whose?' }).waitFor();
  });

  it('asks for the rate and the gain of volts, keeps what was typed on the way back, and remembers the mapping', async () => {
    await page.goto('/lab/import');
    await add(volts.file);
    await page.getByRole('heading', { name: 'What is what?' }).waitFor();
    expect(await page.getByRole('button', { name: 'Continue' }).isDisabled()).toBe(true);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByLabel('Sample rate, Hz').fill('1000');
    await page.keyboard.press('Enter');
    await page.getByLabel('Use Plate A as').selectOption('left');
    await page.getByLabel('Use Plate B as').selectOption('right');
    await page.getByLabel('Newtons per unit').nth(0).fill('1000');
    await page.getByLabel('Zero, in').nth(0).fill('0,02');
    await page.getByLabel('Newtons per unit').nth(1).fill('1000');
    await page.getByLabel('Turn the sign of Plate B round').check();
    await page.getByLabel('Keep this mapping').check();
    await page.getByLabel('Name of the mapping').fill('Old amplifier');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Continue' }).click();
    await athlete().fill('Noa Brandt');
    await page.keyboard.press('Enter');
    await page.getByText('New athlete', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'Back' }).click();
    expect(await page.getByLabel('Newtons per unit').nth(0).inputValue()).toBe('1000');
    await page.getByRole('button', { name: 'Continue' }).click();
    expect(await page.getByLabel('Family name').inputValue()).toBe('Brandt');
    await page.getByRole('button', { name: 'Import 1 trial' }).click();
    const peak = Number((await page.locator('.result-peak').textContent())?.replace(/[^\d]/g, ''));
    expect(Math.abs(peak - volts.peak)).toBeLessThan(25);

    await page.getByRole('button', { name: 'Import more files' }).click();
    await add(voltsFile('amplifier again.csv', 5).file);
    await page.getByRole('heading', { name: 'Which test, whose?' }).waitFor();
    await page.getByRole('button', { name: 'Back' }).click();
    await page.getByText('The mapping "Old amplifier" is used').waitFor();
    expect(page.troubles).toEqual([]);
  });
});
