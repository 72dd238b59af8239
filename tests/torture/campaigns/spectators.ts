import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { virtualDescription } from '@sthene/capture';
import { startStation } from '../../../apps/station/src/index.ts';
import type { LiveLab } from '../../../apps/station/src/live/live-lab.ts';
import { stationPorts } from '../../../apps/station/src/live/station-ports.ts';
import { builtChild } from '../../built-child.ts';
import { type Campaign, must } from '../campaign.ts';

/** Length of each stretch with or without spectators, ms. */
const stretch = 2500;
const pause = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** A station measures at its true pace; spectators come and go away in turn, and the wait for "confirmed" is compared. */
export const spectators: Campaign = {
  promise: 15,
  name: 'spectators',
  claim: '20 spectators, five asleep, two coming and going, one hostile, take no sample and no time from the recording',
  rounds: { short: 1, full: 10 },
  async round(seed, alone) {
    const script = await builtChild(resolve(import.meta.dirname, 'spectators-child.ts'));
    const data = await mkdtemp(join(tmpdir(), 'sthene-spectators-'));
    let lab: LiveLab | undefined;
    const station = await startStation({
      port: 0,
      data,
      webFolder: join(data, 'no-web'),
      headless: { sources: [virtualDescription('Virtual plates', 'fernwater-three', seed)], handsFree: true },
      ports: {
        ...stationPorts,
        watch: (one) => {
          lab = one as LiveLab;
        },
      },
    });
    try {
      const runtime = [...(lab?.rigs.values() ?? [])][0]?.runtime;
      must(runtime !== undefined, 'no rig is open');
      if (runtime === undefined) return {};
      /** Samples that have come and are not confirmed, looked at every 5 ms: at 1000 Hz their number is the wait in ms. */
      const waits = async (): Promise<number[]> => {
        const seen: number[] = [];
        for (const end = Date.now() + stretch; Date.now() < end; await pause(5))
          seen.push(runtime.stream.next - runtime.journal.confirmed().samples);
        return seen;
      };
      await pause(1500);
      const before: number[] = [];
      const watched: number[] = [];
      let read = 0;
      const memory = process.memoryUsage().rss;
      for (let turn = 0; turn < 2; turn++) {
        before.push(...(await waits()));
        const child = spawn(process.execPath, [script, station.address], { stdio: ['ignore', 'pipe', 'inherit'] });
        child.stdout.on('data', (piece: Buffer) => {
          read = Math.max(read, Number(/read (\d+)\n$/.exec(piece.toString())?.[1] ?? 0));
        });
        // They take as long to come as the machine has other things to do; what is measured begins when they are there.
        const there = () => lab?.hub.clients.size ?? 0;
        for (const end = Date.now() + 30_000; there() < 17 && Date.now() < end; await pause(50));
        await pause(500);
        must(there() >= 17, `only ${there()} came`);
        watched.push(...(await waits()));
        child.kill('SIGKILL');
        await pause(300);
      }
      const grown = (process.memoryUsage().rss - memory) / 2 ** 20;
      must(
        runtime.stream.counts.missing === 0 && runtime.stream.counts.gaps === 0,
        `${runtime.stream.counts.missing} samples are missing`,
      );
      must(read > 500, `spectators read only ${read} messages`);
      must(lab?.controls.view.holder === undefined, 'a viewer holds the controls');
      must(grown < 300, `memory grew by ${Math.round(grown)} MiB`);
      // Samples come in packets of 20 ms, so that two medians may lie half a packet apart by chance.
      const limit = 1.1 * median(before) + 10;
      const slower = `confirmed after ${median(watched)} ms, without spectators ${median(before)} ms`;
      must(!alone || median(watched) <= limit, slower);
      return { alone_ms: median(before), watched_ms: median(watched), read, grown_mib: Math.max(0, grown) };
    } finally {
      await station.close();
      await rm(data, { recursive: true, force: true });
    }
  },
};
