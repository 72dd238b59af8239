import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';

const probe = fileURLToPath(new URL('work/rows-probe.js', import.meta.url));

type Probed = typeof globalThis & {
  readonly rowsProbe: {
    all(count: number): Promise<number>;
    come(path: string, some: number, all: number): Promise<[number, number]>;
    sort(heading: number): Promise<number>;
    filter(text: string): Promise<number>;
  };
};

/** More rows than a screen of this height shows. */
const screenful = 30;

/** What a look at the list of everybody takes in a browser, ms. */
export interface SquadLook {
  /** From the start of the navigation, with an empty cache: the first thing painted, and all rows. */
  readonly paint: number;
  readonly rows: number;
  /** From the touch, coming from another page: a screen full of rows painted, and all of them. */
  readonly come: number;
  readonly comeAll: number;
  /** From the touch of a heading to the rows in their new order. */
  readonly sort: number;
  /** From the figure typed to the rows that are left. */
  readonly filter: number;
}

/** Looks at the list of everybody, sorts it by value and filters it, each as one does it by hand. */
export async function lookAtSquad(browser: Browser, station: string, athletes: number): Promise<SquadLook> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  try {
    const page = await context.newPage();
    await page.addInitScript({ path: probe });
    await page.goto(`${station}/lab/athletes`, { waitUntil: 'commit' });
    const rows = await page.evaluate((count) => (globalThis as Probed).rowsProbe.all(count), athletes);
    const paint = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime);
    if (paint === undefined) throw new Error('The browser does not say when it painted first.');
    const sort = await page.evaluate(() => (globalThis as Probed).rowsProbe.sort(1));
    const filter = await page.evaluate(() => (globalThis as Probed).rowsProbe.filter('7'));
    await page.goto(`${station}/lab/norms`);
    await page.locator('main h1').waitFor();
    // Whoever goes on has seen this page.
    await page.waitForTimeout(1000);
    const [come, comeAll] = await page.evaluate(
      ([some, all]) => (globalThis as Probed).rowsProbe.come('/lab/athletes', some, all),
      [Math.min(screenful, athletes), athletes] as const,
    );
    return { paint, rows, come, comeAll, sort, filter };
  } finally {
    await context.close();
  }
}
