import { beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { runByTheButtons } from './floor-operator.ts';
import type { StationUnderTest, WatchedPage } from './station-under-test.ts';

const wait = { timeout: 60_000 };
const names = ['Noor Castellanos', 'Mateusz Oyelaran', 'Saoirse Petrov'] as const;

interface ShownDay {
  readonly id: string;
  readonly entries: readonly {
    readonly person: { readonly name: string };
    readonly state: string;
    readonly efforts: readonly { readonly kind: string; readonly state: string; readonly peakForce?: number }[];
    readonly remaining: readonly unknown[];
    readonly readiness?: { readonly by: string };
  }[];
}

/**
 * A whole day of three athletes on virtual plates, guided and hands-free, as somebody does it who has read nothing. Part of the
 * suite that has built the example squad already: building it once is enough. Waits are long and normally return at once.
 */
export function practiceDay(given: () => StationUnderTest): void {
  describe('a practice day on virtual plates', { timeout: 420_000 }, () => {
    let station: StationUnderTest;
    let page: WatchedPage;
    beforeAll(async () => {
      station = given();
      page = await station.page({ viewport: { width: 1180, height: 820 } });
      page.setDefaultTimeout(60_000);
    });

    const dayNow = async (): Promise<ShownDay> => {
      const id = page.url().split('/').at(-1) ?? '';
      return (await fetch(`${station.address}api/labs/example/days/${id}`)).json() as Promise<ShownDay>;
    };
    const untilDay = (fits: (day: ShownDay) => boolean, within = 60_000) =>
      expect.poll(async () => fits(await dayNow()), { timeout: within, interval: 300 }).toBe(true);
    /** Everybody has warmed up in two steps, pulled at least twice with all strength, and is done. */
    const expectWhole = ({ entries }: ShownDay) => {
      expect(entries.map(({ person }) => person.name)).toEqual(names);
      for (const { efforts, state } of entries) {
        expect(state).toBe('done');
        expect(efforts.slice(0, 2).map(({ kind }) => kind)).toEqual(['submaximal', 'submaximal']);
        const maximal = efforts.filter(({ kind, state: standing }) => kind === 'maximal' && standing !== 'repeat');
        expect(maximal.length).toBeGreaterThanOrEqual(2);
        for (const one of efforts) expect(one.peakForce).toBeGreaterThan(800);
      }
    };
    const begin = async () => {
      await page.getByRole('button', { name: 'Begin the day' }).click();
      await page.getByRole('button', { name: 'Begin', exact: true }).click();
      await page.waitForURL(/\/example\/floor\//, wait);
    };

    it('is one tap from the start page', async () => {
      await page.goto('/');
      await page.getByRole('button', { name: 'Run a practice day' }).click();
      await page.waitForURL(/\/example\/day\/[^/]+$/, wait);
      await page.getByRole('button', { name: 'Begin the day' }).waitFor(wait);
      expect(await seriousFindings(page)).toEqual([]);
    });

    it('asks everybody about readiness, one tap each, and keeps who asked by name', async () => {
      await page.getByRole('button', { name: 'Ask readiness (3)' }).click();
      for (const name of names) {
        await page.getByRole('heading', { name: `Readiness of ${name}` }).waitFor(wait);
        if (name === names[0]) expect(await seriousFindings(page)).toEqual([]);
        await page.getByRole('button', { name: 'All clear' }).click();
      }
      await page.getByText('Everybody was asked.').waitFor(wait);
      await page.getByRole('button', { name: 'Done', exact: true }).click();
      expect((await dayNow()).entries.map(({ readiness }) => readiness?.by)).toEqual(['Guest', 'Guest', 'Guest']);
    });

    it('moves somebody by keyboard, and back', async () => {
      await page.getByRole('button', { name: /^Move Mateusz Oyelaran, place 2 of 3/ }).press('Home');
      await untilDay(({ entries }) => entries[0]?.person.name === 'Mateusz Oyelaran');
      await page.getByRole('button', { name: /^Move Mateusz Oyelaran, place 1 of 3/ }).press('ArrowDown');
      await untilDay(({ entries }) => entries[0]?.person.name === 'Noor Castellanos');
    });

    it('runs the guided day by the large button alone', async () => {
      await page.getByLabel(/^10\u00d7/).check();
      await page.getByText('Saved.').waitFor(wait);
      const address = page.url();
      await begin();
      await page.getByRole('button', { name: 'Take the controls' }).click();
      const run = await runByTheButtons(page, 360_000);
      // They took turns: nobody did all of it at once.
      expect(run.pressed.filter((said) => said.startsWith('Call ')).length).toBeGreaterThan(5);
      await page.goto(address);
      await untilDay(({ entries }) => entries.every(({ remaining }) => remaining.length === 0));
      expectWhole(await dayNow());
      await page.getByRole('button', { name: 'End the day' }).waitFor(wait);
      expect(await seriousFindings(page)).toEqual([]);
    });

    it('gives an effort to whoever really did it, with a reason, while the day runs', async () => {
      const before = (await dayNow()).entries.map(({ efforts }) => efforts.length);
      await page.locator('.entry-name', { hasText: 'Noor Castellanos' }).click();
      await page.getByRole('button', { name: 'Effort 1: Was someone else' }).click();
      const option = page.locator('optgroup[label="On this day"] option', { hasText: 'Saoirse Petrov' });
      await page.getByLabel('Athlete', { exact: true }).selectOption((await option.getAttribute('value')) ?? '');
      await page.getByLabel('Reason').fill('the wrong name was called');
      await page.getByRole('button', { name: 'Give it to them' }).click();
      await page.getByText('The effort now belongs to Saoirse Petrov.').waitFor(wait);
      await untilDay(
        ({ entries }) =>
          entries[0]?.efforts.length === (before[0] ?? 0) - 1 && entries[2]?.efforts.length === (before[2] ?? 0) + 1,
      );
    });

    it('ends the day and shows a session with a peak force for each', async () => {
      await page.getByRole('button', { name: 'End the day' }).click();
      await page.getByRole('dialog').getByRole('button', { name: 'End the day' }).click();
      await page.getByRole('button', { name: 'Go on with the day' }).waitFor(wait);
      await page.getByRole('link', { name: 'Sessions', exact: true }).click();
      for (const name of names) {
        const row = page.getByRole('row', { name: new RegExp(name) }).first();
        await row.waitFor(wait);
        expect(await row.textContent()).toMatch(/\d\sN/);
      }
    });

    it('plans a hands-free day and runs it without a touch', async () => {
      await page.goto('/example/day');
      await page.getByRole('button', { name: 'Plan a day' }).click();
      for (const name of names) await page.getByRole('checkbox', { name: new RegExp(name) }).check();
      await page.getByRole('button', { name: 'Plan it' }).click();
      await page.waitForURL(/\/example\/day\/[^/]+$/, wait);
      // The form that was just left has a box of that name too.
      await page.getByRole('button', { name: 'Begin the day' }).waitFor(wait);
      await page.getByLabel(/^Hands-free/).check();
      await page.getByText('Saved.').waitFor(wait);
      const address = page.url();
      await begin();
      await page.goto(address);
      await untilDay(({ entries }) => entries.every(({ state }) => state === 'done'), 360_000);
      expectWhole(await dayNow());
      expect(page.troubles).toEqual([]);
    });
  });
}
