import { mkdirSync, rmSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { virtualDescription } from '@sthene/capture';
import { call, liveRoutes } from '@sthene/contract';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { buildStation } from '../build.ts';
import { atMost } from '../goal.ts';
import { helloOfViewer, liveUrl, openLiveDay } from '../live-lab.ts';
import { megabytes, time } from '../numbers.ts';
import { startStationProcess, type Usage } from '../station-process.ts';
import { startTalking } from '../talking.ts';

const rate = 1000;
/** Times real time; where the machine cannot follow, the plates wait. */
const speed = 60;
const people = 30;
const efforts = 5;

interface Point extends Usage {
  /** Samples so far. */
  readonly samples: number;
  readonly trials: number;
}

interface Check {
  readonly samples: number;
  readonly captures: number;
  readonly gaps: number;
  readonly faults: number;
  readonly broken: number;
  readonly trials: number;
  readonly same: number;
  readonly different: number;
}

/** A long day on virtual plates, faster than real time. */
export const soak: Benchmark = {
  id: 'h',
  page: 'soak',
  title: 'A long day, faster than real time',
  compared:
    `The built station on virtual plates (left and right, ${rate / 1000} kHz) that run up to ${speed} times faster than time, one capture from beginning to end: ` +
    `a hands-free day of ${people} people with ${efforts} maximal efforts each, rests of three minutes counted in samples, then the plates go on alone; two spectators read every ` +
    'message. Memory is what is in use after a collection, arrays included. Afterwards the journal is read from its first to its last byte, and the recording of ' +
    'every trial is compared with it bit for bit.',
  run,
};

async function run({ folder, hours, minutes }: Bench): Promise<Finding> {
  mkdirSync(folder, { recursive: true });
  buildStation(join(folder, 'web'));
  const data = join(folder, 'data');
  const station = await startStationProcess(data, join(folder, 'web'), ['--expose-gc']);
  const points: Point[] = [];
  const began = performance.now();
  let load = 0;
  try {
    const plan = {
      tests: [
        { test: 'imtp', efforts: Array(efforts).fill({ kind: 'maximal' }), rest: { minimum: 180, maximum: 7200 } },
      ],
      handsFree: true,
    };
    const description = JSON.parse(JSON.stringify(virtualDescription('Virtual plates', 'fernwater-three', 7, speed)));
    const lab = await openLiveDay(station.address, description, plan, people);
    const params = { lab: 'lab' as const, id: lab.rig };
    const others = await startTalking('live-spectators', [liveUrl(station.address), 2, helloOfViewer]);
    do {
      await new Promise((done) => setTimeout(done, 5000));
      const rig = await call(fetch, station.address, liveRoutes.rig, { params });
      if (rig.state !== 'measuring') throw new Error(`The rig is ${rig.state}: ${rig.words}`);
      const [row] = await call(fetch, station.address, liveRoutes.days, { params: { lab: 'lab' } });
      points.push({ ...(await station.usage()), samples: rig.counts.samples, trials: row?.trials ?? 0 });
      load = Math.max(load, loadavg()[0] ?? 0);
    } while ((points.at(-1)?.samples ?? 0) < hours * 3600 * rate && performance.now() - began < minutes * 60_000);
    const by = 'Bench';
    const day = { lab: 'lab' as const, id: lab.day.id };
    await betweenEfforts(() => call(fetch, station.address, liveRoutes.closeDay, { params: day, body: { by } }));
    await betweenEfforts(() => call(fetch, station.address, liveRoutes.closeRig, { params, body: { by } }));
    await others.stop();
  } finally {
    await station.stop();
  }
  const seconds = (performance.now() - began) / 1000;
  const check = await startTalking<Check>('soak-check', [join(data, 'lab')]);
  await check.stop();
  rmSync(data, { recursive: true, force: true });
  return { ok: true, report: report(points, check.said, seconds, load) };
}

/** Nothing is closed in the middle of an effort; the next moment between two will do. */
async function betweenEfforts(act: () => Promise<unknown>): Promise<void> {
  for (let tries = 0; ; tries++) {
    try {
      await act();
      return;
    } catch (error) {
      if (tries >= 600) throw error;
      await new Promise((done) => setTimeout(done, 50));
    }
  }
}

function report(points: readonly Point[], check: Check, seconds: number, load: number) {
  const end = points.at(-1) as Point;
  const hours = end.samples / rate / 3600;
  const hoursOf = ({ samples }: Point) => (samples / rate / 3600).toFixed(2);
  const inUse = ({ heapUsed, arrayBuffers }: Usage) => heapUsed + arrayBuffers;
  // Caches and buffers of a fixed size are full long before the middle.
  const middle = points[Math.round((points.length - 1) / 2)] as Point;
  const growth = inUse(end) - inUse(middle);
  const early = points.find(({ samples }) => samples > 120 * rate) ?? (points[0] as Point);
  const lost = check.gaps + check.faults + check.broken + check.different + (check.trials - check.same);
  const row = (what: string, ours: string) => ({ what, ours, instead: '', ratio: '' });
  return {
    rows: [
      row(
        'played',
        `${hours.toFixed(1)} h in ${time(1000 * seconds)}, ${(end.samples / rate / seconds).toFixed(0)} times real time`,
      ),
      {
        ...row('samples, bytes or trials lost, doubled or changed', String(lost)),
        goal: atMost(0, lost, 'none'),
        because: JSON.stringify(check),
      },
      {
        ...row(
          `growth of memory from the middle, ${hoursOf(middle)} h, to the end, ${middle.trials} and ${end.trials} trials`,
          megabytes(Math.max(0, growth)),
        ),
        goal: atMost(5e6, growth, 'under 5 MB'),
        because: `In use: ${megabytes(inUse(middle))} then, ${megabytes(inUse(end))} at the end.`,
      },
      {
        ...row('handles: after two minutes, at the end', `${early.handles}, ${end.handles}`),
        goal: atMost(early.handles + 2, end.handles, 'none more'),
      },
      row(
        'resident memory at the end, largest',
        `${megabytes(end.rss)}, ${megabytes(Math.max(...points.map(({ rss }) => rss)))}`,
      ),
    ],
    notes: [
      `${check.samples} samples in the journal of ${check.captures} capture; ${check.trials} trials, the recordings of ${check.same} of them the same as the journal bit for bit.`,
      `In use after a collection: ${[0, 0.25, 0.5, 0.75, 1]
        .map((share) => points[Math.round(share * (points.length - 1))] as Point)
        .map((point) => `${megabytes(inUse(point))} at ${hoursOf(point)} h with ${point.trials} trials`)
        .join(', ')}.`,
      `It was one run of ${hours.toFixed(1)} h of samples, not a day of the clock: what depends on the clock of the wall (a night, a change of date) was not tried. Highest load average meanwhile: ${load.toFixed(1)} on this machine.`,
    ],
  };
}
