import { followRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../example-lab.ts';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, whyNot } from './station-under-test.ts';

const reason = whyNot();

describe.skipIf(reason !== undefined)(`battery of tests${reason ? ` (${reason})` : ''}`, { timeout: 120_000 }, () => {
  let station: StationUnderTest;
  let ids: Map<string, string>;
  const ask = async (path: string) => (await fetch(`${station.address}${path.slice(1)}`)).json();
  beforeAll(async () => {
    station = await stationUnderTest(undefined, [], await exampleData());
    const people: { code: string; id: string }[] = await ask(routes.people.path.replace(':lab', 'example'));
    ids = new Map(people.map(({ code, id }) => [code, id]));
  }, 300_000);
  afterAll(() => station?.close());
  const address = (code: string) => `/example/athletes/${ids.get(code)}/battery`;

  it('leads from the athlete to ratios beside their sides, and says what the station says', async () => {
    const page = await station.page();
    await page.goto(`/example/athletes/${ids.get('FW05')}`);
    await page.getByRole('link', { name: 'Battery of tests' }).click();
    const index = page.getByRole('region', { name: 'Dynamic strength index' });
    await index.getByRole('heading', { name: 'Both sides' }).waitFor();
    const path = followRoutes.battery.path.replace(':lab', 'example').replace(':id', ids.get('FW05') as string);
    const view = followRoutes.battery.response?.parse(await ask(path));
    const said = (await index.textContent()) ?? '';
    const { current } = view?.ratios[0] ?? {};
    expect(said).toContain(current?.value.toFixed(2));
    for (const { value } of current?.components ?? []) expect(said).toContain(`${value.toFixed(0)}\u00a0N`);
    const stretch = page.getByRole('region', { name: 'Eccentric utilisation ratio' });
    expect(await stretch.textContent()).toContain('Undecided: its 95 % interval contains a limit');
    await stretch.getByText(/All \d values/).click();
    expect(await stretch.locator('tbody tr').count()).toBe(view?.ratios[1]?.history.length);
    const profile = page.getByRole('region', { name: 'Force and velocity of loaded jumps' });
    await profile.getByText('Only 4 loads').waitFor();
    const pushOff = profile.getByLabel('Push-off distance, cm');
    await pushOff.fill('4');
    await pushOff.press('Enter');
    await profile.getByText('Enter 10 to 80 cm, or nothing.').waitFor();
    expect(page.url()).not.toContain('pushOff');
    await pushOff.fill('40');
    await pushOff.press('Enter');
    await profile.getByText('40.0 cm, as given').waitFor();
    await index.getByRole('link', { name: /^Pull: Session of/ }).click();
    await page.waitForURL(/sessions/);
    expect(page.troubles).toEqual([]);
  });

  it('says which test is missing and what to do, and looks no further than a day', async () => {
    const page = await station.page();
    await page.goto(address('FW06'));
    const index = page.getByRole('region', { name: 'Dynamic strength index' });
    await index.getByText('Not tested yet: Countermovement jump.').waitFor();
    const deficit = page.getByRole('region', { name: 'Bilateral index of the pull' });
    await deficit.getByText('All three sides').waitFor();
    await page.getByLabel('Up to the day').fill('2023-10-01');
    await page.getByText(/^No session up to this day; \d+ sessions are of later days\./).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('says that nobody is there, with a way on', async () => {
    const page = await station.page();
    await page.goto('/example/athletes/nobody/battery');
    await page.getByText('There is no such athlete.').waitFor();
    expect(await seriousFindings(page)).toEqual([]);
  });

  it.each(['light', 'dark', 'contrast'])('has no serious finding in %s, on a laptop and a phone', async (theme) => {
    for (const [width, height] of [
      [1440, 900],
      [390, 844],
    ] as const) {
      const page = await station.page({ viewport: { width, height } });
      await page.goto(address('FW01'));
      await page.locator('.battery-plot svg').waitFor();
      await page.evaluate((chosen) => {
        const { document } = globalThis as unknown as {
          document: { documentElement: { dataset: { theme?: string } } };
        };
        document.documentElement.dataset.theme = chosen;
      }, theme);
      expect(await seriousFindings(page)).toEqual([]);
      const wider = await page.evaluate(() => {
        const { document, innerWidth } = globalThis as unknown as {
          document: { documentElement: { scrollWidth: number } };
          innerWidth: number;
        };
        return document.documentElement.scrollWidth - innerWidth;
      });
      expect(wider).toBeLessThanOrEqual(0);
      await page.close();
    }
  });

  it('is offered as a page to hand out', async () => {
    const page = await station.page();
    await page.goto(address('FW01'));
    await page.getByRole('link', { name: 'A page to hand out' }).click();
    await page.getByRole('link', { name: 'Save as PDF' }).waitFor();
    await page.getByText('The tests of one athlete together').waitFor();
    const href = await page.getByRole('link', { name: 'Save as PDF' }).getAttribute('href');
    const bytes = Buffer.from(await (await fetch(new URL(href ?? '', station.address))).arrayBuffer());
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    expect(await seriousFindings(page)).toEqual([]);
  });
});
