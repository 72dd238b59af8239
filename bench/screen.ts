import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';

const probe = fileURLToPath(new URL('work/curve-probe.js', import.meta.url));

interface Probe {
  drawn: number | undefined;
  paints: number;
  frames: { now: number; paints: number }[];
  recording: boolean;
}
type Probed = typeof globalThis & { curveProbe: Probe };

/** What the first load of a page cost. */
export interface Load {
  /** ms from the start of the navigation to the first frame that shows the curve. */
  readonly toCurve: number;
  /** Bytes of script and style that were asked for, compressed with gzip as a server would, and plain. */
  readonly script: number;
  readonly plainScript: number;
  readonly style: number;
  readonly files: number;
  /** Bytes of the answer that carries the curve; when it was asked for, began to arrive and was there, ms. */
  readonly curve: number;
  readonly asked: number;
  readonly answered: number;
  readonly arrived: number;
}

/** A page with an empty cache, opened at an address and waited for until its curve is there. Close its context when done. */
export async function openCurve(browser: Browser, address: string): Promise<{ page: Page; load: Load }> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.addInitScript({ path: probe });
  const bodies: Promise<{ kind: string; body: Buffer }>[] = [];
  page.on('response', (response) => {
    const kind = response.request().resourceType();
    const isCurve = response.url().endsWith('/curve');
    if (kind === 'script' || kind === 'stylesheet' || isCurve)
      bodies.push(response.body().then((body) => ({ kind: isCurve ? 'curve' : kind, body })));
  });
  await page.goto(address);
  await page.waitForFunction(() => (globalThis as Probed).curveProbe.drawn, undefined, { timeout: 60_000 });
  const toCurve = (await page.evaluate(() => (globalThis as Probed).curveProbe.drawn)) as number;
  if (!(await hasInk(page))) throw new Error('The curve was said to be painted, but its canvas is empty.');
  const way = await page.evaluate(() => {
    const [entry] = performance
      .getEntriesByType('resource')
      .filter(({ name }) => name.endsWith('/curve')) as PerformanceResourceTiming[];
    return { asked: entry?.startTime ?? 0, answered: entry?.responseStart ?? 0, arrived: entry?.responseEnd ?? 0 };
  });
  const all = await Promise.all(bodies);
  const sum = (kind: string, size: (body: Buffer) => number) =>
    all.reduce((total, one) => total + (one.kind === kind ? size(one.body) : 0), 0);
  const zipped = (body: Buffer) => gzipSync(body).length;
  return {
    page,
    load: {
      toCurve,
      ...way,
      script: sum('script', zipped),
      plainScript: sum('script', (body) => body.length),
      style: sum('stylesheet', zipped),
      files: all.filter(({ kind }) => kind !== 'curve').length,
      curve: sum('curve', (body) => body.length),
    },
  };
}

/** Whether the largest canvas has ink in most of its columns, as a curve over the whole width has. */
const hasInk = (page: Page): Promise<boolean> =>
  page.evaluate(() => {
    const canvas = [...document.querySelectorAll('canvas')].sort((a, b) => b.width * b.height - a.width * a.height)[0];
    const data = canvas?.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data;
    if (!canvas || !data) return false;
    const inked = new Set<number>();
    for (let i = 3; i < data.length; i += 4) if (data[i] !== 0) inked.add(((i - 3) / 4) % canvas.width);
    return inked.size > canvas.width / 2;
  });

/** Frames while the curve is dragged to and fro, ms between them, and how many of them painted the curve anew. */
export interface Panning {
  readonly frames: readonly number[];
  readonly painted: number;
}

/** Zooms in with the wheel, then drags the curve with the mouse for some seconds, a move for each frame. */
export async function panCurve(page: Page, seconds: number): Promise<Panning> {
  const box = await page.locator('canvas').first().boundingBox();
  if (!box) throw new Error('The canvas is not on the page.');
  const [middle, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(middle, y);
  for (let i = 0; i < 20; i++) await page.mouse.wheel(0, 200); // out to the whole minute
  for (let i = 0; i < 4; i++) await page.mouse.wheel(0, -150); // then in to about a quarter of it
  await page.waitForTimeout(300);
  await page.mouse.down();
  await page.evaluate(() => {
    (globalThis as Probed).curveProbe.recording = true;
  });
  const began = performance.now();
  for (let t = 0; t < seconds; t = (performance.now() - began) / 1000)
    await page.mouse.move(middle + Math.sin(t * Math.PI) * box.width * 0.35, y);
  const frames = await page.evaluate(() => {
    const { curveProbe } = globalThis as Probed;
    curveProbe.recording = false;
    return curveProbe.frames;
  });
  await page.mouse.up();
  const steps = frames.slice(1).map((frame, i) => ({
    ms: frame.now - (frames[i]?.now ?? frame.now),
    painted: frame.paints > (frames[i]?.paints ?? 0),
  }));
  return { frames: steps.map(({ ms }) => ms), painted: steps.filter(({ painted }) => painted).length };
}
