import type { MonotonicNanoseconds } from '@sthene/core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Packet } from '../packets/packet.ts';
import { readFrame } from './frame.ts';
import { readCapture } from './read.ts';
import type { CaptureReport } from './report.ts';
import { scanSegment } from './scan.ts';
import { checkEncoded, encodedSamples } from './testing/encoded.ts';
import { MemoryDisk } from './testing/memory-disk.ts';
import { folder, openTestJournal } from './testing/session.ts';

const path = `${folder}/capture-000001.0000.journal`;
const nanoseconds = (value: bigint) => value as MonotonicNanoseconds;

async function readAll(bytes: Uint8Array): Promise<{ packets: Packet[]; report: CaptureReport }> {
  const disk = new MemoryDisk();
  disk.place(path, bytes);
  const reading = readCapture(disk, folder, 'capture-000001');
  const packets: Packet[] = [];
  for (;;) {
    const step = await reading.next();
    if (step.done) return { packets, report: step.value };
    packets.push(step.value);
  }
}

/** A small journal: two syncs, a gap, marks, a closing frame. */
async function smallJournal(rounds: number, perRound: number): Promise<Uint8Array> {
  const disk = new MemoryDisk();
  const { journal, clock } = await openTestJournal(disk);
  let next = 0;
  for (let round = 0; round < rounds; round++) {
    for (let i = 0; i < perRound; i++, next += 5) journal.append(encodedSamples(next, 5));
    if (round === 0) {
      journal.append({ kind: 'gap', first: next, count: 4, cause: 'lost', at: nanoseconds(1n) });
      next += 4;
    }
    await journal.mark({ kind: 'mark', sample: next, label: `m${round}`, at: nanoseconds(2n) });
    await clock.pass(6);
  }
  await journal.close();
  return disk.files().get(path) as Uint8Array;
}

describe('a damaged journal', () => {
  let bytes: Uint8Array;
  let original: Packet[];
  let frames: { start: number; end: number; sequence: number; numbered: boolean }[];

  beforeAll(async () => {
    bytes = await smallJournal(3, 3);
    original = (await readAll(bytes)).packets;
    frames = [];
    for (let at = 0; at < bytes.length; ) {
      const found = readFrame(bytes, at);
      if (!found.ok) throw new Error(found.fault);
      const { kind, sequence } = found.frame;
      frames.push({ start: at, end: found.end, sequence, numbered: kind !== 'segment' && kind !== 'boundary' });
      at = found.end;
    }
  });

  /** Never a wrong sample: what is read is what was written, and what is missing is named. */
  function judge(packets: readonly Packet[], where: string): void {
    const check = checkEncoded(packets);
    if (check.wrong !== undefined) throw new Error(`${where}: ${check.wrong}`);
    const known = new Set(original.map(keyOf));
    for (const packet of packets) {
      const ours = packet.kind === 'fault' || (packet.kind === 'gap' && packet.cause === 'damaged');
      if (!ours && !known.has(keyOf(packet))) throw new Error(`${where}: a packet that was never written`);
    }
  }

  it('is whole when it is not damaged', async () => {
    const { report, packets } = await readAll(bytes);
    expect(report).toMatchObject({ whole: true, lost: [] });
    expect(report.counts).toMatchObject({ samples: 45, gaps: 1, missing: 4, marks: 3 });
    judge(packets, 'undamaged');
  });

  it('loses the one frame in which a bit flipped, names it, and never shows a wrong sample', async () => {
    for (let bit = 0; bit < bytes.length * 8; bit++) {
      const flipped = bytes.slice();
      const at = bit >> 3;
      flipped[at] = (flipped[at] as number) ^ (1 << (bit & 7));
      const { packets, report } = await readAll(flipped);
      const where = `bit ${bit}`;
      judge(packets, where);
      const hit = frames.find(({ start, end }) => start <= at && at < end) as (typeof frames)[number];
      const last = hit === frames.at(-1);
      if (report.segments[0]?.bad.length !== 1) throw new Error(`${where}: the damage was not seen`);
      const lost = report.lost.map(({ firstSequence, count }) => `${firstSequence}+${count}`).join();
      const wanted = hit.numbered && !last ? `${hit.sequence}+1` : '';
      if (lost !== wanted) throw new Error(`${where}: lost ${lost}, should be ${wanted}`);
      if (report.whole !== !hit.numbered) throw new Error(`${where}: whole is ${report.whole}`);
    }
  });

  it('keeps every whole frame before a cut at any byte', async () => {
    for (let length = 0; length <= bytes.length; length++) {
      const { packets, report } = await readAll(bytes.slice(0, length));
      const where = `cut at ${length}`;
      judge(packets, where);
      const whole = frames.filter(({ end, numbered }) => numbered && end <= length && end !== bytes.length).length;
      if (report.frames !== whole) throw new Error(`${where}: ${report.frames} frames, should be ${whole}`);
      const inside = frames.some(({ start, end }) => start < length && length < end);
      const bad = report.segments[0]?.bad ?? [];
      // Without a head nothing of the file is known, so nothing is said about its places.
      if (report.session !== undefined && (bad.length === 1) !== inside) throw new Error(`${where}: tail not named`);
      if (report.closed !== (length === bytes.length)) throw new Error(`${where}: closed is ${report.closed}`);
    }
  });

  it('goes on behind any 4 KiB block of zeros, and misses no more than the frames in it', async () => {
    const large = await smallJournal(12, 60);
    const all = scanSegment(large, (readFrame(large, 0) as { frame: { tag: number } }).frame.tag).frames;
    expect(large.length).toBeGreaterThan(16 * 4096);
    original = (await readAll(large)).packets;
    for (let at = 0; at < large.length; at += 4096) {
      const holed = large.slice();
      holed.fill(0, at, at + 4096);
      const { packets, report } = await readAll(holed);
      const where = `zeros from ${at}`;
      judge(packets, where);
      const touched = all.filter(({ raw }) => raw.byteOffset < at + 4096 && raw.byteOffset + raw.length > at);
      const lost = report.lost.reduce((sum, { count }) => sum + count, 0);
      const closing = touched.filter(({ kind }) => kind === 'closing').length;
      if (at === 0) {
        // Head and first boundary went together: reading begins at the next boundary, after 10 s.
        expect(report.frames).toBeGreaterThan(all.length / 2);
        continue;
      }
      if (lost !== touched.length - closing && !(closing > 0 && lost === 0)) {
        throw new Error(`${where}: ${lost} frames lost, ${touched.length} were in it`);
      }
      const gap = packets.filter((packet) => packet.kind === 'gap' && packet.cause === 'damaged').length;
      if (touched.some(({ kind }) => kind === 'samples') && closing === 0) expect(gap).toBe(1);
    }
  });

  it('takes no frame of another capture that lies in its place', async () => {
    const disk = new MemoryDisk();
    const one = await openTestJournal(disk);
    const two = await openTestJournal(disk);
    for (let i = 0; i < 4; i++) one.journal.append(encodedSamples(i * 5, 5));
    for (let i = 0; i < 4; i++) two.journal.append(encodedSamples(1000 + i * 5, 5));
    await one.journal.close();
    await two.journal.close();
    const own = disk.files().get(path) as Uint8Array;
    const other = disk.files().get(`${folder}/capture-000002.0000.journal`) as Uint8Array;
    const mixed = new Uint8Array(own.length + other.length);
    mixed.set(own);
    mixed.set(other, own.length);
    const { packets, report } = await readAll(mixed);
    expect(checkEncoded(packets).received.size).toBe(20);
    expect(report.segments[0]?.bad).toEqual([{ start: own.length, end: mixed.length, fault: 'damaged' }]);
    // A file with the wrong name is not believed at all.
    expect((await readAll(other)).report).toMatchObject({ frames: 0, closed: false });
  });
});

function keyOf(packet: Packet): string {
  return JSON.stringify(packet, (_key, value: unknown) =>
    typeof value === 'bigint' ? String(value) : value instanceof Float64Array ? [...value] : value,
  );
}
