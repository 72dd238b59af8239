import { mkdirSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { call, liveRoutes } from '@sthene/contract';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { buildStation } from '../build.ts';
import { type DiskWatch, watchDisk } from '../disk.ts';
import { atMost } from '../goal.ts';
import { helloOfViewer, liveUrl, openLiveDay } from '../live-lab.ts';
import { megabytes, time } from '../numbers.ts';
import { quantile } from '../rounds.ts';
import { startStationProcess, type Usage } from '../station-process.ts';
import { startTalking } from '../talking.ts';
// @ts-expect-error plain JavaScript, as it runs without tsx when it is measured
import { wireDescription } from '../work/wire.mjs';

const channels = 8;
const rate = 2000;
const spectators = 5;
/** Athletes of the day. */
const athletes = 40;

interface Verdict {
  readonly took: number;
  readonly fromWire?: number;
  readonly verdict: string;
}

/** A test day at true speed: how soon verdicts come, and what the station costs. */
export const liveDay: Benchmark = {
  id: 'g',
  page: 'live',
  title: 'A test day at true speed',
  compared:
    `Three simulated people on load cells on a wire (${channels} channels at ${rate / 1000} kHz, frames of 5 ms over TCP, a process of their own) who see what the ` +
    `station says and follow it, hands-free, one maximal effort after the other; ${spectators} spectators read every message. The end of an effort is detected half a ` +
    'second after it, by definition; "after the end is detected" is from the moment the frame that let the engine see it arrived to the ' +
    'verdict message, sent when the journal is safe (recording, trial and result are stored after it); "from the wire" is from the moment that frame was sent to the verdict at a client. Processor time is that of the ' +
    'whole station process, as a share of one core; beside it that of a process which only takes the same frames off the wire and passes as many ' +
    'bytes on to as many spectators, the least that can be done with them on this machine. The goals are absolute.',
  run: (bench) => run(bench, { test: 'imtp', minutes: bench.day }),
};

/** The same with people who jump: a jump is judged half a second after its landing has come to rest. */
export const jumpDay: Benchmark = {
  id: 'p',
  page: 'live',
  title: 'A test day of jumps at true speed',
  compared:
    `The same people, wire and spectators as in g, who make one maximal countermovement jump after the other (${channels} channels at ${rate / 1000} kHz). A jump is ` +
    'analysed with its phases, its height by two ways, four onset rules and every check. "After the end is detected" is as there: from the moment the frame arrived ' +
    'that let the engine see the landing over to the verdict message. The goal is absolute.',
  run: (bench) =>
    run(bench, { test: 'countermovement-jump', jump: 'countermovement', minutes: Math.min(4, bench.day) }),
};

/** What is tested on a day. */
interface Tested {
  readonly test: string;
  /** How people jump; absent: they pull. */
  readonly jump?: string;
  readonly minutes: number;
}

/** Looks, one every 15 s, until caches and buffers of a fixed size are full. */
const settledAt = 4;

async function run({ quick, folder }: Bench, { test, jump, minutes }: Tested): Promise<Finding> {
  mkdirSync(folder, { recursive: true });
  const web = join(folder, 'web');
  buildStation(web);
  const data = join(folder, 'data');
  const people = await startTalking<{ port: number }>(
    'live-people',
    jump === undefined ? [channels] : [channels, jump],
  );
  const station = await startStationProcess(data, web, ['--expose-gc']);
  try {
    // Four efforts a minute are more than are made.
    const efforts = Array(Math.max(3, Math.ceil((4 * minutes) / athletes))).fill({ kind: 'maximal' });
    const plan = {
      tests: [{ test, efforts, rest: { minimum: 0, maximum: 7200 } }],
      handsFree: true,
    };
    // The people are there before the station calls for them.
    const url = liveUrl(station.address);
    const lab = await openLiveDay(station.address, wireDescription(rate, channels, people.said.port), plan, athletes);
    await people.ask(`follow ${url}`);
    const others = await startTalking('live-spectators', [url, spectators - 1, helloOfViewer]);
    const usages: TimedUsage[] = [{ ...(await station.usage()), at: performance.now() }];
    const loads: number[] = [];
    const verdicts: Verdict[] = [];
    const disk = await watchDisk(folder);
    const began = performance.now();
    let sent = 0;
    while (performance.now() - began < minutes * 60_000) {
      await new Promise((done) => setTimeout(done, 15_000));
      loads.push(loadavg()[0] ?? 0);
      // Memory is compared after a minute and at the end; a collection more often would be no cost of a day.
      const compared = usages.length === settledAt || performance.now() - began >= minutes * 60_000;
      usages.push({ ...(await station.usage(compared ? 'all' : 'time')), at: performance.now() });
      const report = await people.ask<{ verdicts: readonly Verdict[]; sent: number }>('report');
      verdicts.push(...report.verdicts);
      sent = report.sent;
    }
    const seconds = (performance.now() - began) / 1000;
    const params = { lab: 'lab' as const, id: lab.rig };
    const { counts } = await call(fetch, station.address, liveRoutes.rig, { params });
    const seen = await others.stop<Seen>();
    const synced = await disk.stop();
    await station.stop();
    const bare = await bareRelay(people.said.port, (seen?.bytes ?? 0) / (spectators - 1) / seconds, quick ? 20 : 60);
    if (verdicts.length < 2) throw new Error(`There were ${verdicts.length} verdicts in ${seconds.toFixed(0)} s.`);
    return { ok: true, report: report({ usages, loads, verdicts, seconds, sent, counts, seen, synced, bare }) };
  } finally {
    await station.stop();
    await people.stop();
    rmSync(data, { recursive: true, force: true });
  }
}

interface Seen {
  readonly messages: number;
  readonly bytes: number;
  readonly skipped: number;
  readonly gaps: number;
}

interface TimedUsage extends Usage {
  /** When it was asked for, ms. */
  readonly at: number;
}

interface Found {
  readonly usages: readonly TimedUsage[];
  readonly loads: readonly number[];
  readonly verdicts: readonly Verdict[];
  readonly seconds: number;
  readonly sent: number;
  readonly counts: { readonly samples: number; readonly missing: number };
  readonly seen: Seen | undefined;
  /** Share of a core of a process that only passes bytes on, %. */
  readonly bare: number;
  readonly synced: Awaited<ReturnType<DiskWatch['stop']>>;
}

/** Messages a second of a curve at screen rate. */
const curveRate = 50;

/** What a process costs that only takes the same frames from the wire and passes as many bytes on to as many spectators. */
async function bareRelay(port: number, bytesPerSecond: number, seconds: number): Promise<number> {
  const relay = await startTalking<{ port: number }>('bare-relay', [port, Math.round(bytesPerSecond / curveRate)]);
  const readers = Array.from({ length: spectators }, () => connect(relay.said.port, '127.0.0.1').resume());
  try {
    await new Promise((done) => setTimeout(done, 2000));
    const begin = await relay.ask<{ cpu: number }>('time');
    const began = performance.now();
    await new Promise((done) => setTimeout(done, 1000 * seconds));
    const end = await relay.ask<{ cpu: number }>('time');
    return (100 * (end.cpu - begin.cpu)) / (performance.now() - began);
  } finally {
    for (const reader of readers) reader.destroy();
    await relay.stop();
  }
}

/** Processor time of each minute, % of a core: the first ones compile what all others run. */
function byMinute(usages: readonly TimedUsage[]): string {
  const looks = usages.filter((_, i) => i % settledAt === 0);
  const shares = looks.slice(1).map(({ cpu, at }, i) => {
    const before = looks[i] as TimedUsage;
    return ((100 * (cpu - before.cpu)) / (at - before.at)).toFixed(1);
  });
  return `Processor time of the station minute by minute: ${shares.join(', ')} % of a core.`;
}

function report({ usages, loads, verdicts, seconds, sent, counts, seen, synced, bare }: Found) {
  const [first, ...later] = verdicts as [Verdict, ...Verdict[]];
  const took = later.map((one) => one.took);
  const fromWire = later.flatMap((one) => one.fromWire ?? []);
  const begin = usages[0] as TimedUsage;
  const end = usages.at(-1) as TimedUsage;
  const share = (end.cpu - begin.cpu) / (10 * seconds);
  // The first minute fills caches and buffers of a fixed size.
  const settled = usages[Math.min(settledAt, usages.length - 1)] as Usage;
  const sum = ({ heapUsed, arrayBuffers }: Usage) => heapUsed + arrayBuffers;
  const row = (what: string, ours: string) => ({ what, ours, instead: '', ratio: '' });
  const late = quantile(took, 0.99);
  const load = `${Math.min(...loads).toFixed(1)} to ${Math.max(...loads).toFixed(1)}`;
  return {
    rows: [
      row('verdict after the end is detected: median', time(quantile(took, 0.5))),
      {
        ...row('verdict after the end is detected: 99 %', time(late)),
        goal: atMost(300, late, 'under 300 ms'),
        because: `The slowest of ${took.length} took ${time(Math.max(...took))}; the load average of the machine was ${load} on two cores.`,
      },
      {
        ...row('the first verdict after the rig was opened', time(first.took)),
        goal: atMost(300, first.took, 'under 300 ms'),
        because: 'Its code runs for the first time.',
      },
      row(
        'from the wire to the verdict at a client: median, 99 %',
        fromWire.length === 0 ? '' : `${time(quantile(fromWire, 0.5))}, ${time(quantile(fromWire, 0.99))}`,
      ),
      {
        ...row(
          `processor time of the station, ${rate / 1000} kHz, ${channels} channels, ${spectators} spectators`,
          `${share.toFixed(1)} % of a core`,
        ),
        instead: `${bare.toFixed(1)} %`,
        ratio: `${(share / bare).toFixed(1)}x`,
        goal: atMost(10, share, 'under 10 %'),
        because: `It was ${time(end.cpu - begin.cpu)} in ${time(1000 * seconds)}.`,
      },
      row('memory of the station at the end: resident, in use', `${megabytes(end.rss)}, ${megabytes(sum(end))}`),
    ],
    notes: [
      `${verdicts.length} efforts in ${(seconds / 60).toFixed(1)} min at true speed. ${verdicts.filter(({ verdict }) => verdict === 'counts').length} of them count. The first is left out of median and 99 %.`,
      `Memory in use after a collection: ${megabytes(sum(begin))} when the day was opened, ${megabytes(sum(settled))} after a minute, ${megabytes(sum(end))} at the end; what is kept of each judged effort for the day stays. Handles: ${settled.handles} after a minute, ${end.handles} at the end.`,
      byMinute(usages),
      `Sent ${sent} samples; the station counts ${counts.samples} with ${counts.missing} missing (a few ms lie between the two questions).`,
      ...(seen === undefined
        ? []
        : [
            `The ${spectators - 1} spectators that only read got ${seen.messages} messages, ${megabytes(seen.bytes)}, ${(seen.bytes / seconds / (spectators - 1) / 1000).toFixed(1)} kB/s each; ${seen.skipped} were left out, ${seen.gaps} are missing without a word.`,
          ]),
      `The same disk, asked ${synced.syncs} times from another process to make 4 kB durable: median ${time(synced.median)}, longest ${time(synced.longest)}. A verdict waits for two such syncs.`,
      `Load average of the machine meanwhile: ${load}. Two garbage collections, to compare memory, are in the processor time.`,
    ],
  };
}
