import { mkdirSync, rmSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import type { Bench, Benchmark, Finding, Row } from '../benchmark.ts';
import { findBrowser, openBrowser } from '../browser.ts';
import { buildStation } from '../build.ts';
import { atMost } from '../goal.ts';
import { helloOfViewer, liveUrl, openLiveDay } from '../live-lab.ts';
import { measureSteps, type StepRun, startPlates } from '../live-steps.ts';
import { time, times } from '../numbers.ts';
import { alternate, median, quantile } from '../rounds.ts';
import { startStationProcess } from '../station-process.ts';
import { startTalking } from '../talking.ts';
// @ts-expect-error plain JavaScript, as it runs without tsx when it is measured
import { wireDescription } from '../work/wire.mjs';

const channels = 16;

/** From the plates to the screen, against a plain relay. */
export const livePixels: Benchmark = {
  id: 'f',
  page: 'live',
  title: 'From the plates to the screen',
  compared:
    `Load cells on a wire (${channels} channels, frames of 5 ms over TCP, a process of their own) step between 200 and 2000 N at random. Time is from ` +
    'the moment a frame with a step is handed to the socket to the end of the browser frame that has painted it, by the clock of this machine. ' +
    'Our side is the built station with a test day open (journal, live engine, envelope) and its Floor page in Chromium without a window and without a ' +
    'graphics card; what a graphics card and a screen add is not in it. The other side is what one would write in an afternoon: a relay that sends every sample as ' +
    'JSON over a WebSocket to a page that draws a canvas; it keeps, checks and judges nothing. Spectators are the page that is measured and ' +
    'so many less one that read every message.',
  run,
};

async function run({ quick, folder }: Bench): Promise<Finding> {
  const executable = findBrowser();
  if (executable === undefined) return { ok: false, reason: 'no Chromium on this machine' };
  mkdirSync(folder, { recursive: true });
  const web = join(folder, 'web');
  buildStation(web);
  const browser = await openBrowser(executable);
  const rows: Row[] = [];
  const notes: string[] = [];
  try {
    for (const rate of quick ? [1000] : [1000, 2000, 5000]) {
      for (const spectators of quick ? [2] : [1, 20]) {
        const load = loadavg()[0] ?? 0;
        const seconds = quick ? 8 : 25;
        const runs = await alternate(1, {
          ours: () => ourSide(browser, { folder, web, rate, spectators, seconds }),
          relay: () => relaySide(browser, { rate, spectators, seconds }),
        });
        rows.push(...rowsOf(rate, spectators, runs));
        notes.push(noteOf(rate, spectators, runs, load));
      }
    }
    notes.push(`Chromium ${browser.version()}. A step every 0.3 to 0.7 s; the first 9 s of each page are not counted.`);
    return { ok: true, report: { rows, notes } };
  } finally {
    await browser.close();
  }
}

interface Setting {
  readonly rate: number;
  readonly spectators: number;
  readonly seconds: number;
}

async function ourSide(
  browser: Browser,
  { folder, web, rate, spectators, seconds }: Setting & { folder: string; web: string },
): Promise<StepRun> {
  const data = join(folder, `data-${rate}-${spectators}`);
  const plates = await startPlates(rate, channels);
  const station = await startStationProcess(data, web);
  try {
    const plan = { tests: ['imtp'], handsFree: false };
    const { rig } = await openLiveDay(station.address, wireDescription(rate, channels, plates.said.port), plan, 2);
    const others = await startTalking('live-spectators', [liveUrl(station.address), spectators - 1, helloOfViewer]);
    try {
      return await measureSteps(browser, `${station.address}/lab/floor/${rig}`, plates, seconds);
    } finally {
      await others.stop();
    }
  } finally {
    await station.stop();
    await plates.stop();
    rmSync(data, { recursive: true, force: true });
  }
}

async function relaySide(browser: Browser, { rate, spectators, seconds }: Setting): Promise<StepRun> {
  const plates = await startPlates(rate, channels);
  const relay = await startTalking<{ address: string }>('live-relay', [rate, channels, plates.said.port]);
  try {
    const url = relay.said.address.replace(/^http/, 'ws');
    const others = await startTalking('live-spectators', [url, spectators - 1, '']);
    try {
      return await measureSteps(browser, relay.said.address, plates, seconds);
    } finally {
      await others.stop();
    }
  } finally {
    await relay.stop();
    await plates.stop();
  }
}

type Runs = { readonly ours: readonly StepRun[]; readonly relay: readonly StepRun[] };

const all = (runs: readonly StepRun[]): number[] => runs.flatMap(({ latencies }) => latencies);

function rowsOf(rate: number, spectators: number, { ours, relay }: Runs): Row[] {
  const what = `${rate / 1000} kHz, ${channels} channels, ${spectators} ${spectators === 1 ? 'spectator' : 'spectators'}`;
  const at = (runs: readonly StepRun[], share: number) => quantile(all(runs), share);
  const row = (words: string, share: number): Row => ({
    what: `${what}: ${words}`,
    ours: time(at(ours, share)),
    instead: time(at(relay, share)),
    ratio: times(at(relay, share) / at(ours, share)),
  });
  const late = at(ours, 0.99);
  return [
    row('median', 0.5),
    {
      ...row('99 %', 0.99),
      goal: atMost(50, late, 'under 50 ms'),
      because: `The slowest of ${all(ours).length} steps took ${time(Math.max(...all(ours)))}, the median ${time(at(ours, 0.5))}; the relay beside it, on the same machine at the same time, took ${time(at(relay, 0.99))} at the 99th percentile.`,
    },
  ];
}

function noteOf(rate: number, spectators: number, { ours, relay }: Runs, load: number): string {
  const side = (runs: readonly StepRun[]) =>
    `${all(runs).length} steps painted, ${runs.reduce((sum, { missed }) => sum + missed, 0)} not, ${median(runs.map(({ frameRate }) => frameRate)).toFixed(0)} frames a second`;
  const within = Math.max(...[...ours, ...relay].map(({ clockWithin }) => clockWithin));
  return `${rate / 1000} kHz, ${spectators} spectators: ours ${side(ours)}; relay ${side(relay)}. Clocks were compared within ${time(within)}. Load average of the machine before: ${load.toFixed(1)}.`;
}
