import { liveRoutes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { by, type PlayedLab, playedLab } from './played-lab.ts';
import { type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
/** Waits are long for a busy machine and return at once on a quiet one. */
const patience = 60_000;
const lab = { lab: 'lab' as const };

/** They jump and they pull. */
const script = {
  people: [
    { weight: 640, strength: 1250, breathing: 0.8, jumpHeight: 0.29 },
    { weight: 860, strength: 1900, breathing: 0.8, jumpHeight: 0.38 },
  ],
};
const people = [
  { givenName: 'Wren', familyName: 'Alder', birthDate: '1999-04-01' },
  { givenName: 'Heron', familyName: 'Birch', birthDate: '1998-02-11' },
];

describe.skipIf(reason !== undefined)(`a battery${reason ? ` (${reason})` : ''}`, { timeout: 600_000 }, () => {
  let played: PlayedLab;
  let page: WatchedPage;
  beforeAll(async () => {
    played = await playedLab({ script, people, rigs: 2, speed: 5 });
    await played.ask(liveRoutes.closeDay, { params: { ...lab, id: played.day.id }, body: { by } });
    page = await played.page({ viewport: { width: 1180, height: 820 }, hasTouch: true });
    page.setDefaultTimeout(patience);
  }, 120_000);
  afterAll(() => played?.close());

  const clean = async (where: string) => {
    for (const theme of ['light', 'dark', 'contrast']) {
      await page.evaluate(`document.documentElement.dataset.theme = '${theme}'`);
      expect(await seriousFindings(page), `${where}, ${theme}`).toEqual([]);
    }
    await page.evaluate("document.documentElement.dataset.theme = 'light'");
  };
  const dayId = () => page.url().split('/').at(-1) ?? '';
  const dayOf = (id: string) => played.ask(liveRoutes.day, { params: { ...lab, id } });
  const testsOfPlan = () => page.locator('.battery-tests b').allTextContents();

  it('is planned as an ordered list of tests, jumps first unless somebody orders them otherwise', async () => {
    await page.goto('/lab/day');
    await page.getByLabel('Who is acting?').fill('Rowan');
    await page.getByRole('button', { name: 'Keep' }).click();
    await page.getByRole('button', { name: 'Plan a day' }).first().click();
    await page.getByText('More tests').click();
    await page.getByRole('checkbox', { name: 'Countermovement jump', exact: true }).check();
    expect(await testsOfPlan()).toEqual(['Countermovement jump', 'Isometric mid-thigh pull']);
    await page.getByRole('button', { name: 'Countermovement jump one place later' }).click();
    expect(await testsOfPlan()).toEqual(['Isometric mid-thigh pull', 'Countermovement jump']);
    await page.getByRole('button', { name: 'Usual order' }).click();
    expect(await testsOfPlan()).toEqual(['Countermovement jump', 'Isometric mid-thigh pull']);
    await page.getByRole('radio', { name: 'One athlete through all tests' }).check();
    for (const { givenName, familyName } of people)
      await page.getByRole('checkbox', { name: `${givenName} ${familyName}` }).check();
    await clean('the plan');
    await page.getByRole('button', { name: 'Plan it' }).click();
    await page.getByRole('heading', { name: 'Running order' }).waitFor();
    const day = await dayOf(dayId());
    expect(day.battery).toBe('by-person');
    expect(day.entries.map(({ person, test }) => `${person.name}: ${test}`)).toEqual([
      'Wren Alder: countermovement-jump',
      'Wren Alder: imtp',
      'Heron Birch: countermovement-jump',
      'Heron Birch: imtp',
    ]);
  });

  it('moves an athlete with all their tests, and back', async () => {
    const names = async () => (await dayOf(dayId())).entries.map(({ person, test }) => `${person.code} ${test}`);
    const before = await names();
    await page.getByRole('button', { name: /^Move Wren Alder, place 1 of 4/ }).press('ArrowDown');
    await expect.poll(names).toEqual([...before.slice(2), ...before.slice(0, 2)]);
    await page.getByRole('button', { name: /^Move Wren Alder, place 3 of 4/ }).press('ArrowUp');
    await expect.poll(names).toEqual(before);
    await clean('the running order');
  });

  it('takes somebody out with all their tests and in again, and adds one who comes late', async () => {
    const id = dayId();
    const of = async (code: string) =>
      (await dayOf(id)).entries.filter(({ person }) => person.code === code).map(({ state }) => state);
    await page.getByRole('button', { name: /Heron Birch.*Countermovement/ }).click();
    await page.getByRole('button', { name: 'Not here yet' }).click();
    await expect.poll(() => of('HB01')).toEqual(['left', 'left']);
    await page.getByRole('button', { name: 'Is here' }).click();
    await expect.poll(() => of('HB01')).toEqual(['waiting', 'waiting']);
    await page.getByRole('button', { name: 'Walk-in' }).click();
    await page.getByLabel('Name or code').fill('Otter Cole');
    await page.getByRole('button', { name: 'Add Otter Cole as a new athlete' }).click();
    await expect.poll(async () => (await dayOf(id)).entries.length).toBe(6);
    const late = (await dayOf(id)).entries.filter(({ walkIn }) => walkIn);
    expect(late.map(({ test, position }) => `${position} ${test}`)).toEqual(['5 countermovement-jump', '6 imtp']);
    for (const { id: entry } of late) await played.ask(liveRoutes.removeEntry, { params: { ...lab, id: entry } });
  });

  it('goes on with the next test of the same athlete without weighing again', async () => {
    const id = dayId();
    await played.ask(liveRoutes.openDay, { params: { ...lab, id }, body: { by } });
    await page.goto('/lab/floor/A');
    await page.getByText('Next: Wren Alder').waitFor();
    await page.keyboard.press('c');
    await page.getByText('You hold the controls').waitFor();
    const main = page.locator('.act-main');
    const question = page.locator('.question-card button').first();
    const next = page.getByRole('button', { name: 'Next test: Isometric mid-thigh pull' });
    for (const end = Date.now() + 240_000; Date.now() < end && !(await next.isVisible()); ) {
      const said = (await main.textContent({ timeout: 1000 }).catch(() => '')) ?? '';
      if (await question.isVisible()) await question.click({ timeout: 1000 }).catch(() => {});
      else if (!said.startsWith('Stop') && !said.startsWith('Next test'))
        await main.click({ timeout: 500 }).catch(() => {});
      await page.waitForTimeout(150);
    }
    await page.getByText('Test 1 of 2').waitFor();
    const wall = await played.page({ viewport: { width: 1920, height: 1080 } });
    wall.setDefaultTimeout(patience);
    await wall.goto('/lab/wall/A');
    // There is no effort of this test to name any more.
    await wall.getByText('Rest. Another test follows').waitFor();
    expect(await wall.locator('.wall-what').count()).toBe(0);
    // A press right after the phase began is no press.
    await page.waitForTimeout(700);
    await next.click();
    await page.getByText('Test 2 of 2').waitFor();
    await page.getByText('Not weighed again. The weight stands that was taken with: Countermovement jump.').waitFor();
    expect(['rest', 'set-up']).toContain(await page.locator('.floor').getAttribute('data-phase'));
    await clean('the Floor');
    await wall.getByText('Test 2 of 2: Isometric mid-thigh pull').waitFor();
    expect(await seriousFindings(wall)).toEqual([]);
    // One submaximal pull, so that there is a session of the second test.
    const pulled = async () => (await dayOf(id)).entries[1]?.efforts.length ?? 0;
    for (const end = Date.now() + 300_000; Date.now() < end && (await pulled()) === 0; ) {
      if (await question.isVisible()) await question.click({ timeout: 1000 }).catch(() => {});
      else if (!((await main.textContent()) ?? '').startsWith('Stop'))
        await main.click({ timeout: 500 }).catch(() => {});
      await page.waitForTimeout(300);
    }
    expect(await pulled()).toBeGreaterThan(0);
    expect(wall.troubles).toEqual([]);
    await wall.close();
  });

  it('ties the sessions of the day and says where the weight comes from', async () => {
    const [day] = await played.ask(liveRoutes.days, { params: lab });
    const entries = (await dayOf(day?.id ?? '')).entries;
    await page.goto(`/lab/sessions/${entries[1]?.session}`);
    const link = page.locator('.same-day').getByRole('link', { name: 'Countermovement jump' });
    await link.waitFor();
    await page.getByRole('link', { name: 'with countermovement jump' }).waitFor();
    await clean('the session');
    await link.click();
    await page.locator('.same-day').getByRole('link', { name: 'Isometric mid-thigh pull' }).waitFor();
    expect(page.troubles).toEqual([]);
  });
});
