import type { MonotonicNanoseconds } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { MarkPacket, Packet } from '../packets/packet.ts';
import { listCaptures, readJournal } from './read.ts';
import { recover, reportOf } from './recover.ts';
import { allOf, checkEncoded, encodedSamples } from './testing/encoded.ts';
import { FaultPort } from './testing/fault-port.ts';
import { MemoryDisk } from './testing/memory-disk.ts';
import { folder, openTestJournal } from './testing/session.ts';

const mark = (sample: number, label: string): MarkPacket => ({
  kind: 'mark',
  sample,
  label,
  at: 0n as MonotonicNanoseconds,
});

describe('a journal', () => {
  it('gives back what it took, in order, and closes with counts and a sum', async () => {
    const disk = new MemoryDisk();
    const { journal, clock } = await openTestJournal(disk);
    const packets: Packet[] = [
      encodedSamples(0, 10),
      { kind: 'gap', first: 10, count: 5, cause: 'stall', at: 0n as MonotonicNanoseconds },
      mark(15, 'cue'),
      encodedSamples(15, 10),
    ];
    for (const packet of packets) journal.append(packet);
    await clock.pass(0.1);
    const summary = await journal.close();
    expect(summary).toMatchObject({ complete: true, samples: 20, gaps: 1, missing: 5, marks: 1, endSample: 25 });
    const read = await allOf(readJournal(disk, folder));
    expect(read[0]).toMatchObject({ kind: 'header', source: 'fernwater-plates', promisedRate: 1000 });
    expect(read.filter(({ kind }) => kind !== 'header' && kind !== 'clock')).toEqual(packets);
    const report = await reportOf(disk, folder, journal.capture);
    expect(report).toMatchObject({ whole: true, closed: true, lost: [], frames: summary.frames });
    expect(report.sha256).toBe(summary.sha256);
    expect(await recover(disk, folder)).toEqual([]);
  });

  it('confirms only what a sync confirmed, within 100 ms while samples arrive', async () => {
    const disk = new MemoryDisk();
    const port = new FaultPort(disk);
    const { journal, clock } = await openTestJournal(port);
    expect(journal.confirmed().sample).toBe(0);
    let worst = 0;
    for (let i = 0; i < 200; i++) {
      journal.append(encodedSamples(i * 10, 10, 2, clock.monotonic()));
      await clock.pass(0.01);
      worst = Math.max(worst, (i + 1) * 10 - journal.confirmed().sample);
      const safe = checkEncoded(await allOf(readJournal(disk.afterPowerCut(pessimist), folder)));
      if (i % 20 === 0) expect(safe.received.size).toBe(journal.confirmed().sample);
    }
    // 1000 samples a second, so samples are milliseconds.
    expect(worst).toBeLessThanOrEqual(100);
    expect(worst).toBeGreaterThan(0);
    const syncs = port.calls.filter(({ act }) => act === 'sync').length;
    expect(syncs).toBeGreaterThanOrEqual(20);
    expect(syncs).toBeLessThanOrEqual(50);
  });

  it('syncs at once at a mark and answers when it is safe', async () => {
    const disk = new MemoryDisk();
    const { journal } = await openTestJournal(disk);
    journal.append(encodedSamples(0, 10));
    expect(await journal.mark(mark(10, 'cue'))).toMatchObject({ complete: true, sample: 10 });
    const safe = checkEncoded(await allOf(readJournal(disk.afterPowerCut(pessimist), folder)));
    expect(safe.marks).toEqual(['cue']);
  });

  it('rotates segments at their size, and repeats the head and a boundary in each', async () => {
    const disk = new MemoryDisk();
    const { journal, clock } = await openTestJournal(disk, { segmentBytes: 4096 });
    for (let i = 0; i < 50; i++) {
      journal.append(encodedSamples(i * 20, 20));
      await clock.pass(0.02);
    }
    const summary = await journal.close();
    const files = [...disk.files()];
    expect(files.length).toBe(summary.segments);
    expect(files.length).toBeGreaterThan(3);
    for (const [, bytes] of files) expect(bytes.length).toBeLessThanOrEqual(4096);
    const check = checkEncoded(await allOf(readJournal(disk, folder)), 0);
    expect(check.wrong).toBeUndefined();
    expect(check.received.size).toBe(1000);
  });

  it('writes a boundary every 10 s and a clock frame every 5 s', async () => {
    const disk = new MemoryDisk();
    const { journal, clock } = await openTestJournal(disk);
    for (let i = 0; i < 600; i++) {
      journal.append(encodedSamples(i * 100, 100));
      await clock.pass(0.1);
    }
    await journal.close();
    const read = await allOf(readJournal(disk, folder));
    expect(read.filter(({ kind }) => kind === 'clock').length).toBe(13);
    const bytes = [...disk.files().values()][0] as Uint8Array;
    // One at the start and one at the first sync after each 10 s of 60.
    expect(countOf(bytes, Uint8Array.of(0x9c, 0x1e, 0xd3, 0x57))).toBe(6);
  });

  it('gives each capture of a folder its own number, also when two open at once', async () => {
    const disk = new MemoryDisk();
    const opened = await Promise.all([openTestJournal(disk), openTestJournal(disk), openTestJournal(disk)]);
    expect(new Set(opened.map(({ journal }) => journal.capture)).size).toBe(3);
    for (const [i, { journal }] of opened.entries()) {
      journal.append(encodedSamples(i * 100, 10));
      await journal.close();
    }
    expect(await listCaptures(disk, folder)).toEqual(['capture-000001', 'capture-000002', 'capture-000003']);
    const firsts = (await allOf(readJournal(disk, folder))).flatMap((p) => (p.kind === 'samples' ? [p.first] : []));
    expect(firsts.sort((a, b) => a - b)).toEqual([0, 100, 200]);
  });

  it('names samples that never came, though no source said so', async () => {
    const disk = new MemoryDisk();
    const { journal } = await openTestJournal(disk);
    journal.append(encodedSamples(5, 5));
    journal.append(encodedSamples(30, 5));
    expect(await journal.close()).toMatchObject({ samples: 10, gaps: 1, missing: 20, firstSample: 5, endSample: 35 });
    const check = checkEncoded(await allOf(readJournal(disk, folder)), 5);
    expect(check.wrong).toBeUndefined();
    expect(check.missing.size).toBe(20);
  });

  it('keeps nothing after it was closed, and says so', async () => {
    const disk = new MemoryDisk();
    const { journal, codes } = await openTestJournal(disk);
    journal.append(encodedSamples(0, 5));
    const [one, other] = await Promise.all([journal.close(), journal.close()]);
    expect(one).toEqual(other);
    journal.append(encodedSamples(5, 5));
    expect(codes()).toEqual(['late-packet']);
    expect(one.samples).toBe(5);
  });

  it('is not stopped by a listener that throws', async () => {
    const { journal } = await openTestJournal(new MemoryDisk(), {
      onConfirmed: () => {
        throw new Error('screen gone');
      },
    });
    journal.append(encodedSamples(0, 5));
    expect((await journal.close()).complete).toBe(true);
  });

  it('says when the drive does not answer, goes on taking samples, and closes in time', async () => {
    const port = new FaultPort(new MemoryDisk(), ({ act, ofAct }) =>
      act === 'sync' && ofAct === 1 ? { kind: 'hang' } : undefined,
    );
    const { journal, clock, codes } = await openTestJournal(port, { queueBytes: 4000 });
    journal.append(encodedSamples(0, 10));
    await clock.pass(0.1);
    for (let i = 1; i < 100; i++) {
      journal.append(encodedSamples(i * 10, 10));
      await clock.pass(0.05);
    }
    expect(codes()).toEqual(['sync-slow', 'samples-refused']);
    expect(journal.confirmed().sample).toBe(10);
    const closing = journal.close();
    await clock.pass(6);
    expect(await closing).toMatchObject({ complete: false });
  });
});

/** A draw that keeps nothing that was not synced. */
const pessimist = { unit: () => 0.999, below: () => 0, chance: () => false };

function countOf(bytes: Uint8Array, pattern: Uint8Array): number {
  let count = 0;
  for (let at = 0; at < bytes.length; at++) if (pattern.every((byte, i) => bytes[at + i] === byte)) count++;
  return count;
}
