import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { type PlayedLab, playedLab } from './played-lab.ts';
import { whyNot } from './station-under-test.ts';

const reason = whyNot();
const phone = { viewport: { width: 390, height: 844 }, hasTouch: true };
const script = { people: [{ weight: 742, strength: 1700 }] };
/** Forty characters, as names are. */
const people = [
  { givenName: 'Bartholomew-Maximilian', familyName: 'Featherstonehaug', birthDate: '1999-04-01' },
  { givenName: 'Wren', familyName: 'Alder', birthDate: '1998-02-11' },
];

/** How far the page could be scrolled sideways, pixels. */
const sideways = (page: Page) =>
  page.evaluate(() => {
    const { documentElement: root } = (globalThis as unknown as { document: { documentElement: Box } }).document;
    return root.scrollWidth - root.clientWidth;
  });
interface Box {
  readonly scrollWidth: number;
  readonly clientWidth: number;
}

/** Whether the whole of an element lies in the window. */
async function inSight(page: Page, what: Locator): Promise<boolean> {
  const box = await what.boundingBox();
  const { width, height } = page.viewportSize() ?? { width: 0, height: 0 };
  return box !== null && box.x >= 0 && box.y >= 0 && box.x + box.width <= width && box.y + box.height <= height;
}

describe.skipIf(reason !== undefined)(`the look of the live day${reason ? ` (${reason})` : ''}`, () => {
  let lab: PlayedLab;
  beforeAll(async () => {
    lab = await playedLab({ script, people });
  }, 120_000);
  afterAll(() => lab?.close());

  it('has every place of the navigation in sight on a phone, and at 400 %', { timeout: 60_000 }, async () => {
    const page = await lab.page(phone);
    for (const width of [390, 320]) {
      await page.setViewportSize({ width, height: 844 });
      await page.goto(`/lab/day/${lab.day.id}`);
      await page.getByRole('heading', { name: 'Winter test, first boat' }).waitFor();
      const places = await page.getByRole('navigation').getByRole('link').all();
      expect(places).toHaveLength(9);
      for (const place of places) expect(await inSight(page, place), (await place.textContent()) ?? '').toBe(true);
      expect(await sideways(page), `${width} wide`).toBe(0);
    }
    expect(await seriousFindings(page)).toEqual([]);
    await page.context().close();
  });

  it('keeps what acts and what stops in sight on a phone, and leads back to the day that runs', {
    timeout: 60_000,
  }, async () => {
    const page = await lab.page(phone);
    await page.goto('/lab/floor/A');
    await page.getByRole('button', { name: 'Take the controls' }).click();
    await page.getByText('You hold the controls').waitFor();
    for (const name of [/^Call Bartholomew/, 'Stop', 'Pain stop'])
      expect(await inSight(page, page.getByRole('button', { name, exact: true })), String(name)).toBe(true);
    expect(await sideways(page)).toBe(0);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Leave the floor' }).click();
    await page.waitForURL(`**/lab/day/${lab.day.id}`);
    await page.context().close();
  });

  it('closes the menu of the floor by Escape, also where the focus has gone nowhere', { timeout: 60_000 }, async () => {
    const page = await lab.page({ viewport: { width: 1180, height: 820 }, hasTouch: true });
    await page.goto('/lab/floor/A');
    const menu = page.getByRole('button', { name: 'This screen' });
    const choice = page.getByText('How this device gives count and cue');
    for (const leave of [false, true]) {
      await menu.click();
      await choice.waitFor();
      if (leave) await page.evaluate('document.activeElement.blur()');
      await page.keyboard.press('Escape');
      await choice.waitFor({ state: 'hidden' });
    }
    await page.context().close();
  });

  it('brings the sound of a wall to a hand that asks for it, and keeps what was chosen', {
    timeout: 60_000,
  }, async () => {
    const page = await lab.page({ viewport: { width: 1920, height: 1080 }, colorScheme: 'dark' });
    await page.goto('/lab/wall/A');
    const controls = page.locator('.wall-controls');
    await page.getByRole('heading', { name: 'Bartholomew-Maximilian' }).waitFor();
    expect(await controls.getAttribute('data-shown')).toBe('false');
    await page.keyboard.press('Tab');
    const button = page.getByRole('switch', { name: 'Sound on this wall: on' });
    expect(await button.evaluate((one) => one.matches(':focus'))).toBe(true);
    expect(await seriousFindings(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await page.getByRole('switch', { name: 'Sound on this wall: off' }).waitFor();
    await page.reload();
    await page.getByRole('switch', { name: 'Sound on this wall: off' }).waitFor();
    expect(page.troubles).toEqual([]);
    await page.context().close();
  });
});
