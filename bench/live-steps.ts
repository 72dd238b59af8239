import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { startTalking } from './talking.ts';

const probe = fileURLToPath(new URL('work/step-probe.js', import.meta.url));

interface Step {
  readonly at: number;
  readonly up: boolean;
}
type Probed = typeof globalThis & { stepProbe: { steps: Step[]; frames: number } };

/** Two clocks compared: what has to be added to the first, and how wrong that may be, ms. */
interface Offset {
  readonly add: number;
  readonly within: number;
}

/** Latencies of the steps that were painted, ms, and how many never were. */
export interface StepRun {
  readonly latencies: readonly number[];
  readonly missed: number;
  /** Frames a second in which the curve was painted anew. */
  readonly frameRate: number;
  readonly clockWithin: number;
}

/** Plates in a process of their own. */
export const startPlates = (rate: number, channels: number) =>
  startTalking<{ port: number }>('live-steps', [rate, channels]);

export type Plates = Awaited<ReturnType<typeof startPlates>>;

/** Opens a page and measures for so many seconds when steps of the plates are painted on it. */
export async function measureSteps(
  browser: Browser,
  address: string,
  plates: Plates,
  seconds: number,
): Promise<StepRun> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  try {
    const page = await context.newPage();
    await page.addInitScript({ path: probe });
    await page.goto(address);
    await page.waitForFunction(() => (globalThis as Probed).stepProbe.steps.length >= 3, undefined, {
      timeout: 60_000,
    });
    // Code is compiled and the paper is full after its eight seconds.
    await page.waitForTimeout(9000);
    const toPage = await offsetOf(() => page.evaluate(() => performance.timeOrigin + performance.now()));
    const toPlates = await offsetOf(async () => (await plates.ask<{ clock: number }>('clock')).clock);
    await plates.ask('steps');
    const before = await framesOf(page);
    const began = performance.now();
    await page.waitForTimeout(1000 * seconds);
    const { steps } = await plates.ask<{ steps: readonly Step[] }>('steps');
    const measured = (performance.now() - began) / 1000;
    const frames = (await framesOf(page)) - before;
    await page.waitForTimeout(2000);
    const painted = await page.evaluate(() => (globalThis as Probed).stepProbe.steps);
    // The page's clock as the plates would read it.
    const shift = toPlates.add - toPage.add;
    const found = pair(
      steps,
      painted.map(({ at, up }) => ({ at: at + shift, up })),
    );
    return { ...found, frameRate: frames / measured, clockWithin: toPage.within + toPlates.within };
  } finally {
    await context.close();
  }
}

const framesOf = (page: Page): Promise<number> => page.evaluate(() => (globalThis as Probed).stepProbe.frames);

/** What another clock shows now less what ours shows, from the quickest of many questions. */
async function offsetOf(ask: () => Promise<number>): Promise<Offset> {
  let best: Offset | undefined;
  for (let i = 0; i < 60; i++) {
    const before = performance.now();
    const there = await ask();
    const after = performance.now();
    const within = (after - before) / 2;
    if (best === undefined || within < best.within) best = { add: there - (before + after) / 2, within };
  }
  return best as Offset;
}

/** Each step with the first painting of its level before the next step; later than that it was never seen by itself. */
export function pair(
  steps: readonly Step[],
  painted: readonly Step[],
): { readonly latencies: number[]; readonly missed: number } {
  const latencies: number[] = [];
  let missed = 0;
  steps.forEach((step, i) => {
    const until = (steps[i + 1]?.at ?? step.at + 2000) + 1;
    // A clock is known within a ms or two, so that a painting may seem to come a little early.
    const seen = painted.find(({ at, up }) => up === step.up && at > step.at - 5 && at < until + 200);
    if (seen === undefined) missed++;
    else latencies.push(seen.at - step.at);
  });
  return { latencies, missed };
}
