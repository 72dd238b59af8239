import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { findBrowser, openBrowser } from '../browser.ts';
import { runNode } from '../child.ts';
import { atLeast } from '../goal.ts';
import { kilobytes, time, times } from '../numbers.ts';
import { alternate, median } from '../rounds.ts';

interface Printed {
  readonly work: number;
  readonly bytes: number;
}

/** Pages of athletes as PDF, beside a browser that prints the same page. */
export const reports: Benchmark = {
  id: 'j',
  page: 'reports',
  title: 'Pages to hand out',
  compared:
    'The page of an athlete with ten sessions, a figure and a table, as a tagged PDF on A4, one after the other, each another athlete. ' +
    'The other side is what a program would do instead: Chromium, already open, is given the HTML of the same report and prints it, tagged, ' +
    'in one tab that stays open. Time is that of one page; starting is left out on both sides.',
  run,
};

async function run({ quick, folder }: Bench): Promise<Finding> {
  const path = findBrowser();
  if (path === undefined) return { ok: false, reason: 'no Chromium is installed' };
  const count = quick ? 5 : 40;
  mkdirSync(folder, { recursive: true });
  const browser = await openBrowser(path);
  try {
    const ours = () => runNode<Printed>('reports', [count, folder]);
    // The first run writes the pages that the browser prints.
    await ours();
    const runs = await alternate(quick ? 2 : 5, { ours, browser: () => printed(browser, folder, count) });
    const [own, other] = [median(runs.ours.map(({ said }) => said.work)), median(runs.browser.map(({ work }) => work))];
    const [ownBytes, otherBytes] = [runs.ours[0]?.said.bytes ?? 0, runs.browser[0]?.bytes ?? 0];
    return {
      ok: true,
      report: {
        rows: [
          {
            what: 'one page of an athlete, PDF, A4',
            ours: time(own / count),
            instead: time(other / count),
            ratio: times(other / own),
            goal: atLeast(2, other / own, 'at least twice as fast'),
            because: 'Both set the same text and figure; the browser does it in compiled code.',
          },
          { what: 'pages a second', ours: perSecond(count, own), instead: perSecond(count, other), ratio: '' },
          {
            what: 'size of a page',
            ours: kilobytes(ownBytes / count),
            instead: kilobytes(otherBytes / count),
            ratio: `${(ownBytes / otherBytes).toFixed(2)} of the size`,
          },
        ],
        notes: [
          `${count} pages a round; Chromium ${browser.version()}.`,
          'Ours is the same bytes each time, which every run checks; the browser writes the time of day into its file.',
        ],
      },
    };
  } finally {
    await browser.close();
  }
}

const perSecond = (count: number, ms: number): string => ((1000 * count) / ms).toFixed(1);

/** Prints the pages one after the other in one tab, after one that warms up. */
async function printed(browser: Browser, folder: string, count: number): Promise<Printed> {
  const context = await browser.newContext();
  try {
    const page = await context.newPage();
    const html = Array.from({ length: count }, (_, i) => readFileSync(join(folder, `page-${i + 1}.html`), 'utf8'));
    const print = async (text: string) => {
      await page.setContent(text);
      return page.pdf({ format: 'A4', tagged: true, printBackground: true });
    };
    await print(html[0] ?? '');
    const began = performance.now();
    let bytes = 0;
    for (const text of html) bytes += (await print(text)).length;
    return { work: performance.now() - began, bytes };
  } finally {
    await context.close();
  }
}
