import { execFile } from 'node:child_process';
import { mkdtemp, rm, rmdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { type JournalStatus, nodeJournalPort, openJournal, readJournal, reportOf } from '@sthene/capture';
import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { type Campaign, must } from '../campaign.ts';
import { allOf, checkEncoded, drawFrom, encodedHeader, encodedSamples } from '../ports.ts';

const run = promisify(execFile);
const clock = {
  monotonic: () => process.hrtime.bigint() as MonotonicNanoseconds,
  wall: () => new Date().toISOString() as UtcInstant,
};

/** A disk of the given size in kB, in memory; needs the right to mount. */
async function smallDisk(kilobytes: number): Promise<{ path: string; remove(): Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), 'sthene-disk-'));
  await run('mount', ['-t', 'tmpfs', '-o', `size=${kilobytes}k`, 'tmpfs', path]).catch(async (error: unknown) => {
    await rmdir(path);
    throw error;
  });
  return {
    path,
    remove: async () => {
      // What was just closed may be held for a moment longer.
      for (let left = 50; ; left--) {
        try {
          await run('umount', [path]);
          break;
        } catch (error) {
          if (left === 0) throw error;
          await new Promise((done) => setTimeout(done, 200));
        }
      }
      await rmdir(path);
    },
  };
}

/** A real small disk fills up while a trial runs; the reserve lets it end; then there is room again. */
export const smallDiskFull: Campaign = {
  promise: 5,
  name: 'small-disk',
  claim: 'a full disk never freezes, never corrupts, and the running trial ends properly',
  rounds: { short: 2, full: 50 },
  async unavailable() {
    try {
      await (await smallDisk(64)).remove();
      return undefined;
    } catch {
      return 'needs the right to mount a small disk (run as root on Linux)';
    }
  },
  async round(seed) {
    const draw = drawFrom(seed);
    const disk = await smallDisk(2500 + draw.below(1500));
    try {
      const filler = join(disk.path, 'other-people.bin');
      await writeFile(filler, new Uint8Array(draw.below(500_000)));
      const told: JournalStatus[] = [];
      const journal = await openJournal({
        folder: join(disk.path, 'journal'),
        port: nodeJournalPort,
        clock,
        session: 'full',
        header: encodedHeader(16, 5000, clock.monotonic()),
        // At this pace, ten times that of a large rig, a batch that must be written again takes 200 kB.
        reserveBytes: 700_000,
        segmentBytes: 100_000 + draw.below(400_000),
        onStatus: (status) => told.push(status),
      });
      let next = 0;
      let slowest = 0;
      let left = 40;
      // Until the disk is full, then 40 packets more: the rest of the trial.
      for (let i = 0; left > 0; i++) {
        must(i < 3000, 'the disk never filled up');
        if (told.some(({ code }) => code === 'reserve-released')) left--;
        const began = performance.now();
        journal.append(encodedSamples(next, 50, 16, clock.monotonic()));
        slowest = Math.max(slowest, performance.now() - began);
        next += 50;
        if (i % 5 === 0) await new Promise((resolve) => setTimeout(resolve, 2));
      }
      const end = await journal.mark({ kind: 'mark', sample: next, label: 'end', at: clock.monotonic() });
      must(
        end.complete,
        `the trial did not end properly: ${told.map(({ code, details }) => `${code} ${JSON.stringify(details)}`).join(', ')}`,
      );
      must(slowest < 200, `append took ${slowest} ms`);
      const summary = await journal.close();
      must(summary.complete && summary.refused === 0, JSON.stringify(summary));
      const folder = join(disk.path, 'journal');
      const { wrong, received } = checkEncoded(await allOf(readJournal(nodeJournalPort, folder)), 0);
      must(wrong === undefined && received.size === next, wrong ?? `${received.size} of ${next} samples`);
      must((await reportOf(nodeJournalPort, folder, journal.capture)).whole, 'not whole');
      return { samples: next, told: told.length };
    } finally {
      await rm(join(disk.path, 'journal'), { recursive: true, force: true });
      await disk.remove();
    }
  },
};
