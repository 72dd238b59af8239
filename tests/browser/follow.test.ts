import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../example-lab.ts';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();

describe.skipIf(reason !== undefined)(`following a squad${reason ? ` (${reason})` : ''}`, { timeout: 120_000 }, () => {
  let station: StationUnderTest;
  let page: WatchedPage;
  beforeAll(async () => {
    station = await stationUnderTest(undefined, [], await exampleData());
    page = await station.page();
  });
  afterAll(() => station?.close());

  it('says what to act on, and lets the lab choose by what', async () => {
    await page.goto('/example/today?on=2026-09-01');
    await page.getByText('12 athletes not tested for 12 weeks').waitFor();
    await page.getByText('How this is judged').click();
    await page.getByLabel('Weeks until an athlete is due again').fill('60');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('12 athletes not tested').waitFor({ state: 'detached' });
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('shows a squad as two values, as small figures, and what its test can confirm', async () => {
    await page.goto('/example/athletes');
    await page.getByLabel('Two values').click();
    await page.getByRole('figure', { name: 'RFD 0 to 200 ms against Peak force' }).waitFor();
    expect(await page.locator('.squad-cross').count()).toBe(12);
    await page.getByLabel('Position').selectOption('Bow side');
    await page.getByRole('status').filter({ hasText: '6 athletes' }).waitFor();
    await page.getByLabel('Small figures').click();
    await page.locator('.squad-small li').first().waitFor();
    expect(await page.locator('.squad-small li').count()).toBe(6);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Before the day' }).click();
    await page.getByText(/this test confirms a true gain of/).waitFor();
    expect(await page.locator('.before-grid td').count()).toBe(15);
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('holds a value against a published group, in a block of its own below the own norms', async () => {
    await page.goto('/example/norms?test=imtp');
    const block = page.getByRole('region', { name: 'Published values of other people' });
    await block.getByText('Your own come first').waitFor();
    await block.getByLabel('Published group').selectOption('imtp-rugby-union-u18');
    await block.getByLabel('Value, N').fill('2900');
    // NM-01 of jumps-and-plates.md 9.6: z 0.997938, percentile 84.0845, T 59.9794.
    const found = block.getByRole('status');
    await found.getByText('1.00', { exact: true }).waitFor();
    expect(await found.textContent()).toMatch(/84\u00a0%[\s\S]*60[\s\S]*cannot be said/);
    await block.getByLabel('Published group').selectOption('imtp-soccer-women-straps');
    await found.getByText(/from 11 people/).waitFor();
    await found
      .getByText(/95 % interval/)
      .first()
      .waitFor();
    await block.getByLabel('Whose value').selectOption({ index: 1 });
    await block.getByLabel('Value, N').waitFor({ state: 'detached' });
    await found.getByText('The group is female, the athlete is noted as male.').waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByLabel('Value', { exact: true }).selectOption('rfd_0_200');
    await block.getByText(/No published value with a source/).waitFor();
    expect(await block.getByRole('table').count()).toBe(0);
  });

  it('shows how much of a hurt limb is back, and keeps what is written down', async () => {
    await page.goto('/example/athletes');
    await page.getByRole('link', { name: 'Ingrid Mbeki-Hale' }).click();
    await page.getByText('Leans to the right.').waitFor();
    await page.locator('.curves-line').first().waitFor();
    await page.getByRole('button', { name: 'Write something down' }).click();
    await page.getByLabel('Words').fill('Slept badly.');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    const note = page.locator('.notes-list li').filter({ hasText: 'Slept badly.' });
    await note.getByRole('button', { name: 'Take back' }).click();
    await page.getByRole('dialog').getByText('Slept badly.').waitFor();
    await page.getByRole('dialog').getByRole('button', { name: 'Take back' }).click();
    await note.waitFor({ state: 'detached' });
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Return after injury' }).click();
    await page
      .getByText(/of its own value is back/)
      .first()
      .waitFor();
    expect(await page.locator('.return-point').count()).toBeGreaterThan(3);
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('adopts a study as the noise', async () => {
    await page.goto('/example/reliability?sessions=3');
    await page.getByRole('button', { name: 'Adopt this study' }).click();
    await page.getByLabel('Reason').fill('Three sessions of the spring.');
    await page.getByRole('dialog').getByRole('button', { name: 'Adopt this study' }).click();
    await page.getByText(/Changes are judged by an adopted study/).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Judge by the history again' }).click();
    await page.getByLabel('Reason').fill('Tried it.');
    await page.getByRole('dialog').getByRole('button', { name: 'Judge by the history again' }).click();
    await page.getByText('Changes are judged by the lab’s history.').waitFor();
  });

  it('lets two people read blind and compares them', async () => {
    await page.goto('/example/blind');
    await page.getByRole('button', { name: 'Draw a sample' }).click();
    await page.getByLabel('Name of the study').fill('Spring');
    await page.getByLabel('Trials').fill('3');
    await page.getByLabel('Reader 1').fill('Ada');
    await page.getByLabel('Reader 2').fill('Bo');
    await page.getByRole('button', { name: 'Draw', exact: true }).click();
    for (const reader of ['Ada', 'Bo']) {
      await page.getByRole('link', { name: `Read as ${reader}` }).click();
      for (let n = 1; n <= 3; n++) {
        await page.getByText(`Trial ${n} of 3`).waitFor();
        const curve = page.getByRole('application');
        await curve.locator('canvas').click({ position: { x: 300, y: 100 } });
        await page.getByText(/placed at/).waitFor();
        await curve.press('ArrowRight');
        await page.getByLabel('counts').check();
        if (n === 1) expect(await seriousFindings(page)).toEqual([]);
        await page.getByRole('button', { name: 'Keep and go on' }).click();
      }
      await page.getByText('All trials are read.').waitFor();
      await page.getByRole('link', { name: 'Double readings' }).click();
    }
    await page.getByRole('button', { name: 'Close and compare' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByRole('heading', { name: 'Comparison: Spring' }).waitFor();
    // Both clicked the same place of the same curves.
    const first = page.locator('.blind-table tbody tr').first();
    expect(await first.innerText()).toContain('100\u00a0%');
    expect(await seriousFindings(page)).toEqual([]);
  });
});
