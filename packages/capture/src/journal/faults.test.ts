import type { MonotonicNanoseconds } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { MarkPacket } from '../packets/packet.ts';
import { readJournal } from './read.ts';
import { reportOf } from './recover.ts';
import { allOf, checkEncoded, encodedSamples } from './testing/encoded.ts';
import { FaultPort } from './testing/fault-port.ts';
import { MemoryDisk } from './testing/memory-disk.ts';
import { drawFrom } from './testing/random.ts';
import { folder, openTestJournal } from './testing/session.ts';

const mark = (sample: number, label: string): MarkPacket => ({
  kind: 'mark',
  sample,
  label,
  at: 0n as MonotonicNanoseconds,
});

describe('a failed sync', () => {
  // Twenty syncs; each in turn fails once, loses its pages, and every later sync says yes.
  it.each(Array.from({ length: 20 }, (_, n) => n))('number %d is never taken for a success', async (n) => {
    const disk = new MemoryDisk();
    const port = new FaultPort(disk, ({ act, ofAct }) =>
      act === 'sync' && ofAct === n ? { kind: 'fail', code: 'EIO' } : undefined,
    );
    const { journal, clock, told } = await openTestJournal(port);
    for (let i = 0; i < 20; i++) {
      journal.append(encodedSamples(i * 10, 10));
      await journal.mark(mark(i * 10 + 10, `m${i}`));
      // What is confirmed is on the platter: cut the power here and look.
      const there = checkEncoded(await allOf(readJournal(disk.afterPowerCut(drawFrom(i)), folder)), 0);
      expect(there.wrong).toBeUndefined();
      for (let s = 0; s < journal.confirmed().sample; s++) expect(there.received.has(s)).toBe(true);
      expect(there.marks).toContain(`m${i}`);
      await clock.pass(0.01);
    }
    const summary = await journal.close();
    expect(summary).toMatchObject({ complete: true, samples: 200, marks: 20, suspects: [0], refused: 0 });
    expect(told.map(({ code }) => code)).toEqual(['sync-failed', 'written-again']);
    expect(told[0]?.details).toEqual({ cause: 'EIO' });
    const report = await reportOf(disk.afterPowerCut(drawFrom(n)), folder, journal.capture);
    expect(report).toMatchObject({ whole: true, lost: [], sha256: summary.sha256 });
    expect(report.counts).toMatchObject({ samples: 200, marks: 20, missing: 0 });
  });

  it('that tears a page loses nothing that was confirmed in it, once all is written again', async () => {
    for (let n = 1; n < 30; n++) {
      const disk = new MemoryDisk();
      disk.tearsPages = true;
      const port = new FaultPort(disk, ({ act, ofAct }) =>
        act === 'sync' && ofAct === n ? { kind: 'fail', code: 'EIO' } : undefined,
      );
      const { journal } = await openTestJournal(port);
      for (let i = 0; i < 40; i++) {
        journal.append(encodedSamples(i * 20, 20));
        expect(await journal.sync()).toMatchObject({ complete: true, sample: (i + 1) * 20 });
        const there = checkEncoded(await allOf(readJournal(disk.afterPowerCut(drawFrom(i)), folder)), 0);
        expect(there.wrong).toBeUndefined();
        expect(there.received.size).toBeGreaterThanOrEqual((i + 1) * 20);
      }
    }
  });

  it('of the folder counts like one of the file', async () => {
    const disk = new MemoryDisk();
    const port = new FaultPort(disk, ({ act, ofAct }) =>
      act === 'syncFolder' && ofAct === 0 ? { kind: 'fail', code: 'EIO' } : undefined,
    );
    const { journal, codes } = await openTestJournal(port);
    journal.append(encodedSamples(0, 10));
    expect(await journal.sync()).toMatchObject({ complete: true, sample: 10 });
    expect(codes()).toEqual(['sync-failed', 'written-again']);
    expect((await journal.close()).suspects).toEqual([0]);
  });

  it('that never ends fails every wish to be safe, and freezes nothing', async () => {
    const port = new FaultPort(new MemoryDisk(), ({ act, ofAct }) =>
      act === 'sync' && ofAct > 0 ? { kind: 'fail', code: 'EIO' } : undefined,
    );
    const { journal, clock, codes } = await openTestJournal(port);
    journal.append(encodedSamples(0, 10));
    expect(await journal.sync()).toMatchObject({ complete: true });
    for (let i = 1; i < 40; i++) {
      journal.append(encodedSamples(i * 10, 10));
      await clock.pass(0.5);
    }
    expect(await journal.mark(mark(400, 'cue'))).toMatchObject({ complete: false, sample: 10 });
    expect(journal.confirmed().sample).toBe(10);
    expect(codes()).toEqual(['sync-failed']);
    // Pauses grow to 4 s, so 20 s see about a dozen attempts and not hundreds.
    expect(port.calls.filter(({ act }) => act === 'sync').length).toBeLessThan(30);
    expect(await journal.close()).toMatchObject({ complete: false, samples: 400 });
  });
});

describe('a full disk', () => {
  const run = async (capacity: number, reserveBytes: number) => {
    const disk = new MemoryDisk();
    disk.capacity = capacity;
    const opened = await openTestJournal(disk, { reserveBytes, queueBytes: 20_000 });
    for (let i = 0; i < 400; i++) {
      opened.journal.append(encodedSamples(i * 10, 10));
      await opened.clock.pass(0.05);
      if (i % 10 > 0) continue;
      const safe = checkEncoded(await allOf(readJournal(disk, folder)));
      if (safe.wrong !== undefined) throw new Error(safe.wrong);
      if (safe.next < opened.journal.confirmed().sample) throw new Error('confirmed and not there');
    }
    return { disk, ...opened };
  };

  it('at the n-th write, for every n: nothing confirmed is lost, and all of it is safe when there is room again', async () => {
    for (let n = 0; n < 40; n++) {
      const disk = new MemoryDisk();
      let full = false;
      const port = new FaultPort(disk, ({ act, ofAct }) => {
        if (act === 'write' && ofAct === n) full = true;
        return full && (act === 'write' || act === 'create')
          ? { kind: 'fail', code: 'ENOSPC', share: (n % 5) / 4 }
          : undefined;
      });
      const { journal, clock, codes } = await openTestJournal(port);
      for (let i = 0; i < 60; i++) {
        journal.append(encodedSamples(i * 10, 10));
        await clock.pass(0.05);
        if (i === 45) full = false;
        const { wrong, received } = checkEncoded(await allOf(readJournal(disk, folder)));
        expect(wrong).toBeUndefined();
        expect(received.size).toBeGreaterThanOrEqual(journal.confirmed().sample);
      }
      await clock.pass(5);
      const summary = await journal.close();
      expect(summary).toMatchObject({ complete: true, samples: 600, refused: 0 });
      expect(codes()).toEqual(n < 40 ? ['write-failed', 'written-again'] : []);
      expect(await reportOf(disk, folder, journal.capture)).toMatchObject({ whole: true, sha256: summary.sha256 });
    }
  });

  it('releases the reserve, so that the running trial ends properly', async () => {
    const { disk, journal, codes } = await run(100_000, 50_000);
    expect(codes().slice(0, 2)).toEqual(['disk-nearly-full', 'write-failed']);
    expect(codes()).toContain('reserve-released');
    expect(codes()).toContain('written-again');
    const summary = await journal.close();
    expect(summary).toMatchObject({ complete: true, samples: 4000, refused: 0 });
    expect(await reportOf(disk, folder, journal.capture)).toMatchObject({ whole: true });
  });

  it('without any room left refuses samples by name when the stated memory is used up', async () => {
    const { disk, journal, clock, codes } = await run(30_000, 0);
    expect(codes()).toContain('samples-refused');
    const confirmed = journal.confirmed().sample;
    disk.capacity = Number.POSITIVE_INFINITY;
    await clock.pass(5);
    journal.append(encodedSamples(4000, 10));
    const summary = await journal.close();
    expect(summary.complete).toBe(true);
    expect(summary.refused).toBeGreaterThan(0);
    expect(summary.samples + summary.refused).toBe(4010);
    expect(summary.missing).toBe(summary.refused);
    const check = checkEncoded(await allOf(readJournal(disk, folder)), 0);
    expect(check.wrong).toBeUndefined();
    expect(check.missing.size).toBe(summary.refused);
    for (let s = 0; s < confirmed; s++) expect(check.received.has(s)).toBe(true);
  });

  it('from the start leaves no reserve, and says so', async () => {
    const disk = new MemoryDisk();
    disk.capacity = 30_000;
    const { journal, codes } = await openTestJournal(disk, { reserveBytes: 20_000 });
    expect(codes()).toEqual(['reserve-missing']);
    journal.append(encodedSamples(0, 10));
    expect((await journal.close()).complete).toBe(true);
  });

  it('when no file can be made there is no journal, and nothing was promised', async () => {
    const port = new FaultPort(new MemoryDisk(), ({ act }) =>
      act === 'create' ? { kind: 'fail', code: 'EROFS' } : undefined,
    );
    await expect(openTestJournal(port)).rejects.toMatchObject({ code: 'EROFS' });
  });
});
