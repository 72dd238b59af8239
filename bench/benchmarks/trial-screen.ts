import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { findBrowser, openBrowser } from '../browser.ts';
import { buildStation } from '../build.ts';
import { cellCount, cellRate, cellSeconds } from '../cells.ts';
import { atLeast, atMost } from '../goal.ts';
import { importTrial } from '../import-trial.ts';
import { kilobytes, megabytes, time } from '../numbers.ts';
import { median, quantile } from '../rounds.ts';
import { type Load, openCurve, type Panning, panCurve } from '../screen.ts';
import { startStationProcess } from '../station-process.ts';

/** The Trial screen in a browser: what it loads, how soon the curve is there, how smoothly it moves. */
export const trialScreen: Benchmark = {
  id: 'e',
  page: 'files',
  title: 'Trial screen',
  compared:
    `A recording of ${cellSeconds} s at ${cellRate / 1000} kHz with ${cellCount} channels (four load cells under each foot, all of them forces), ` +
    'imported into the built station and opened in Chromium without a window and without a graphics card, 1440 by 900, with an empty ' +
    'cache each time. Script is what the browser asked for, compressed by gzip at its usual level. Time to curve is from the start of ' +
    'the navigation to the first frame that shows it. For panning, the mouse drags the curve to and fro; 60 frames a second is met ' +
    'when the mean rate rounds to 60, the rate of the screen. There is no other side: the goals are absolute.',
  run,
};

async function run({ quick, folder }: Bench): Promise<Finding> {
  const executable = findBrowser();
  if (executable === undefined) return { ok: false, reason: 'no Chromium on this machine' };
  mkdirSync(folder, { recursive: true });
  const web = join(folder, 'web');
  buildStation(web);
  const station = await startStationProcess(join(folder, 'data'), web);
  try {
    const trial = await importTrial(station.address);
    const browser = await openBrowser(executable);
    const loads: Load[] = [];
    const pans: Panning[] = [];
    try {
      for (let round = 0; round < (quick ? 3 : 7); round++) {
        const { page, load } = await openCurve(browser, `${station.address}/lab/trials/${trial.id}`);
        loads.push(load);
        if (round < (quick ? 1 : 3)) pans.push(await panCurve(page, quick ? 2 : 5));
        await page.context().close();
      }
      return { ok: true, report: report(loads, pans, browser.version(), trial.bytes) };
    } finally {
      await browser.close();
    }
  } finally {
    await station.stop();
  }
}

function report(loads: readonly Load[], pans: readonly Panning[], browser: string, fileBytes: number) {
  const of = (what: keyof Load) => median(loads.map((load) => load[what]));
  const toCurve = of('toCurve');
  const frames = pans.flatMap((pan) => pan.frames);
  const total = frames.reduce((sum, ms) => sum + ms, 0);
  const rate = (1000 * frames.length) / total;
  const painted = pans.reduce((sum, pan) => sum + pan.painted, 0);
  const at = (share: number) => time(quantile(frames, share));
  return {
    rows: [
      {
        what: 'script of the first load, compressed',
        ours: kilobytes(of('script')),
        instead: '',
        ratio: '',
        goal: atMost(250_000, of('script'), 'under 250 kB'),
        because: `It has ${kilobytes(of('plainScript'))} before compression.`,
      },
      {
        what: 'time to curve',
        ours: time(toCurve),
        instead: '',
        ratio: '',
        goal: atMost(1000, toCurve, 'within 1 s'),
        because: `The answer with the curve, ${megabytes(of('curve'))}, was asked for at ${time(of('asked'))}, began to arrive at ${time(of('answered'))} and was there at ${time(of('arrived'))}; the rest is painting.`,
      },
      {
        what: 'frames a second while panning',
        ours: rate.toFixed(1),
        instead: '',
        ratio: '',
        goal: atLeast(60, Math.round(rate), '60'),
        because: `Frames take ${at(0.5)} in the median, ${at(0.95)} at the 95th and ${at(0.99)} at the 99th percentile.`,
      },
      {
        what: 'frame time while panning: median, 95 %, 99 %',
        ours: `${at(0.5)}, ${at(0.95)}, ${at(0.99)}`,
        instead: '',
        ratio: '',
      },
    ],
    notes: [
      `Chromium ${browser}; ${loads.length} loads (${time(Math.min(...loads.map((load) => load.toCurve)))} to ${time(Math.max(...loads.map((load) => load.toCurve)))} to the curve), ${frames.length} frames of panning, ${painted} of them with the curve painted anew.`,
      `Styles are another ${kilobytes(of('style'))} compressed; script and style came in ${of('files')} files. The text file has ${megabytes(fileBytes)}, the curve as sent ${megabytes(of('curve'))}.`,
    ],
  };
}
