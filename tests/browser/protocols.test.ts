import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
const shots = process.env.STHENE_SHOTS;

/** Pages of a PDF: by pdfinfo where it is installed, else by the page objects of the file. */
function pagesOf(pdf: Uint8Array, name: string): number {
  const file = join(process.env.STHENE_SHOTS ?? '/tmp', name);
  writeFileSync(file, pdf);
  if (existsSync('/usr/bin/pdfinfo'))
    return Number(/Pages:\s+(\d+)/.exec(execFileSync('/usr/bin/pdfinfo', [file], { encoding: 'utf8' }))?.[1]);
  return [...readFileSync(file, 'latin1').matchAll(/\/Type\s*\/Page\b(?!s)/g)].length;
}

describe.skipIf(reason !== undefined)(`protocols${reason ? ` (${reason})` : ''}`, { timeout: 180_000 }, () => {
  let station: StationUnderTest;
  let page: WatchedPage;
  beforeAll(async () => {
    if (shots) mkdirSync(shots, { recursive: true });
    station = await stationUnderTest();
    page = await station.page();
    const answer = await fetch(`${station.address}api/labs/lab`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{}',
    });
    expect(answer.status).toBe(200);
    await page.addInitScript(() => {
      (globalThis as unknown as { localStorage: { setItem(key: string, value: string): void } }).localStorage.setItem(
        'sthene.signed-as',
        'Rowan',
      );
    });
  });
  afterAll(() => station?.close());

  const everyLook = async () => {
    for (const theme of ['light', 'dark', 'contrast']) {
      await page.evaluate((name) => {
        const { document } = globalThis as unknown as {
          document: { documentElement: { dataset: Record<string, string> } };
        };
        document.documentElement.dataset.theme = name;
      }, theme);
      expect(await seriousFindings(page), theme).toEqual([]);
    }
  };

  it('asks of a jump nothing that only a pull has', async () => {
    const fields = async (from: string) => {
      await page.goto(`/lab/protocols/new?from=${from}`);
      await page.getByRole('heading', { name: 'A new protocol' }).waitFor();
      // Limits of checks are others for each test.
      return page.locator('.panel:not([aria-labelledby="part-checks"]) .number-grid label').allTextContents();
    };
    const [pull, jump] = [await fields('imtp'), await fields('countermovement-jump')];
    const alone = pull.filter((label) => !jump.includes(label));
    expect(alone.join()).toMatch(/Length of a pull.*difference/);
    expect(alone).toHaveLength(4);
    expect(jump.filter((label) => !pull.includes(label))).toEqual([]);
  });

  it('lists the built-in ones and makes one of its own from one of them', async () => {
    await page.goto('/lab/protocols');
    await page.getByRole('heading', { name: 'Protocols', level: 1 }).waitFor();
    await page.getByRole('link', { name: 'Isometric squat, first time' }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByLabel('Begin with').selectOption('imtp');
    await page.getByRole('button', { name: 'Make a protocol' }).click();
    await page.getByRole('heading', { name: 'A new protocol' }).waitFor();
    await page.getByLabel('Name', { exact: true }).fill('Boathouse pull');
    await page.getByRole('button', { name: 'Save as version 1' }).click();
    await page.getByRole('heading', { name: 'Boathouse pull', level: 1 }).waitFor();
  });

  it('says faults at their fields and the protocol in plain sentences, and goes back and forth', async () => {
    await page.getByRole('link', { name: 'Change', exact: true }).click();
    const rest = page.getByLabel('Shortest rest after a maximal effort');
    await rest.fill('5');
    await page.getByText('From 15 s to 30 min.').first().waitFor();
    expect(await rest.getAttribute('aria-invalid')).toBe('true');
    expect(await seriousFindings(page)).toEqual([]);
    await rest.fill('90');
    await page.getByText('90 s of rest between them; after 10 min one submaximal effort comes first.').waitFor();
    await page.getByText('Usual in this test: 2 min.').first().waitFor();
    await rest.press('Control+z');
    expect(await rest.inputValue()).toBe('120');
    await rest.press('Control+y');
    expect(await rest.inputValue()).toBe('90');
  });

  it('keeps the draft through a reload, and saves it as version 2 with a reason, by keyboard alone', async () => {
    await page.reload();
    await page.getByText('This is your unsaved draft.').waitFor();
    const rest = page.getByLabel('Shortest rest after a maximal effort');
    expect(await rest.inputValue()).toBe('90');
    const save = page.getByRole('button', { name: 'Save as version 2' });
    await save.focus();
    await page.keyboard.press('Enter');
    await page.getByText('Say in a few words why there is a new version.').waitFor();
    await page.getByLabel('Why this version').focus();
    await page.keyboard.type('Shorter rests');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Boathouse pull', level: 1 }).waitFor();
    await page.getByText('Version 2', { exact: true }).first().waitFor();
    const row = page.getByRole('row', { name: /Shortest rest after a maximal effort/ });
    expect(await row.textContent()).toContain('2 min90 s');
    await everyLook();
  });

  it('prints exactly one page, on A4 and on Letter, also when the protocol is as long as it may be', async () => {
    // The sheet itself and nothing of the screen is on paper.
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.protocol-sheet').isVisible()).toBe(true);
    expect(await page.getByRole('heading', { name: 'Boathouse pull', level: 1 }).isVisible()).toBe(false);
    await page.emulateMedia({ media: null });
    for (const format of ['A4', 'Letter'] as const)
      expect(pagesOf(await page.pdf({ format }), `usual-${format}.pdf`), format).toBe(1);
    const list = await fetch(`${station.address}api/labs/lab/protocols/imtp-left`).then((one) => one.json());
    const [{ document }] = (list as { versions: { document: Record<string, unknown> }[] }).versions as [
      { document: Record<string, unknown> },
    ];
    const long = (n: number, letters: number) =>
      Array.from({ length: n }, (_, i) => `${i + 1} ${'word '.repeat(60)}`.slice(0, letters).trim());
    const fields = Array.from({ length: 20 }, (_, i) => ({
      id: `field_${i}`,
      title: `A setup field with a rather long name ${i + 1}`,
      kind: i % 3 === 0 ? 'choice' : 'number',
      ...(i % 3 === 0 ? { choices: ['one', 'two', 'three', 'four'] } : { unit: 'cm' }),
      required: i % 2 === 0,
    }));
    const full = {
      ...document,
      name: 'As long as it may be',
      warmUp: {
        ...(document.warmUp as object),
        steps: long(8, 120),
        efforts: [0.3, 0.4, 0.5, 0.6, 0.7, 0.8].map((share) => ({ share, band: 0.1, weightShare: 1.5 })),
      },
      localRules: long(6, 200),
      setupFields: fields,
    };
    const made = await fetch(`${station.address}api/labs/lab/protocols`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ document: full, by: 'Rowan' }),
    });
    const { id } = (await made.json()) as { id: string };
    const other = await station.page();
    await other.goto(`/lab/protocols/${id}`);
    await other.getByRole('heading', { name: 'As long as it may be', level: 1 }).waitFor();
    for (const format of ['A4', 'Letter'] as const)
      expect(pagesOf(await other.pdf({ format }), `full-${format}.pdf`), format).toBe(1);
    expect(other.troubles).toEqual([]);
    await other.close();
  });

  it('plans a day by the version, and the day shows it', async () => {
    await page.goto('/lab/day');
    await page.getByRole('button', { name: 'Plan a day' }).first().click();
    const choice = page.getByLabel('Protocol for Isometric mid-thigh pull');
    await choice.selectOption({ label: 'Boathouse pull, version 2' });
    expect(await seriousFindings(page)).toEqual([]);
    await page.locator('.plan-form button[type=submit]').click();
    await page.waitForURL(/\/lab\/day\/.+/);
    await page.getByRole('link', { name: 'Boathouse pull, version 2' }).click();
    await page.getByRole('heading', { name: 'Boathouse pull', level: 1 }).waitFor();
    expect(page.troubles).toEqual([]);
  });

  it.skipIf(!shots)('is photographed', { timeout: 240_000 }, async () => {
    const sizes = { touch: [1180, 820], wall: [1920, 1080], laptop: [1440, 900], phone: [390, 844] } as const;
    const list = (await fetch(`${station.address}api/labs/lab/protocols`).then((one) => one.json())) as {
      id: string;
      name: string;
    }[];
    const id = list.find(({ name }) => name === 'Boathouse pull')?.id ?? '';
    for (const [size, [width, height]] of Object.entries(sizes))
      for (const [screen, address] of [
        ['list', '/lab/protocols'],
        ['read', `/lab/protocols/${id}`],
        ['edit', `/lab/protocols/${id}/edit`],
      ] as const) {
        await page.setViewportSize({ width, height });
        await page.goto(address);
        await page.getByRole('heading', { level: 1 }).waitFor();
        await page.waitForTimeout(300);
        for (const theme of ['light', 'dark', 'contrast']) {
          await page.evaluate((name) => {
            const { document } = globalThis as unknown as {
              document: { documentElement: { dataset: Record<string, string> } };
            };
            document.documentElement.dataset.theme = name;
          }, theme);
          await page.screenshot({
            path: join(shots ?? '', `${screen}-${size}-${theme}.png`),
            fullPage: screen !== 'edit',
          });
        }
      }
  });
});
