import { readJournal, recover } from '@sthene/capture';
import type { MonotonicNanoseconds } from '@sthene/core';
import { type Campaign, must } from '../campaign.ts';
import {
  allOf,
  checkEncoded,
  type Draw,
  drawFrom,
  encodedSamples,
  type Fate,
  FaultPort,
  folder,
  MemoryDisk,
  openTestJournal,
  settle,
} from '../ports.ts';

/** Faults now and then, and the end at one call. */
function planFrom(draw: Draw, deadline: number) {
  const trouble = draw.chance(0.4) ? 0.04 : 0;
  return ({ act, index }: { act: string; index: number }): Fate => {
    if (index >= deadline) return { kind: 'die', share: draw.unit() };
    if (!draw.chance(trouble)) return undefined;
    if (act === 'sync' || act === 'syncFolder') return { kind: 'fail', code: 'EIO' };
    if (act === 'write') return { kind: 'fail', code: draw.chance(0.5) ? 'ENOSPC' : 'EIO', share: draw.unit() };
    return undefined;
  };
}

/**
 * A journal with packets, marks, gaps and syncs at random, on a disk that keeps what was synced and does as it likes with the
 * rest. The power goes at a random call. What had been confirmed by then must be there.
 */
export const powerCut: Campaign = {
  promise: 2,
  name: 'power-cut',
  claim: 'a power cut loses nothing that was confirmed, and shows no wrong sample',
  rounds: { short: 300, full: 10_000 },
  async round(seed) {
    const draw = drawFrom(seed);
    const disk = new MemoryDisk();
    const port = new FaultPort(disk, planFrom(draw, 8 + draw.below(120)));
    const opened = await openTestJournal(port, {
      segmentBytes: 2048 + draw.below(16_384),
      queueBytes: draw.chance(0.2) ? 4000 : 1_000_000,
      reserveBytes: draw.chance(0.3) ? 3000 : 0,
    }).catch(() => undefined);
    if (opened === undefined) return { died: 1 };
    const { journal, clock } = opened;
    const start = draw.below(3) * 1000;
    const safeMarks: string[] = [];
    const asked: string[] = [];
    let next = start;
    let confirmed = journal.confirmed();
    // What is told in the very moment of the cut is not counted on; what was told before is.
    for (let step = 0; step < 400 && !port.dead; step++) {
      confirmed = journal.confirmed();
      const what = draw.below(20);
      if (what < 13) {
        const count = 1 + draw.below(20);
        journal.append(encodedSamples(next, count, 2, clock.monotonic()));
        next += count;
      } else if (what < 15) {
        const label = `mark ${step}`;
        asked.push(label);
        void journal
          .mark({ kind: 'mark', sample: next, label, at: clock.monotonic() })
          .then(({ complete }) => complete && !port.dead && safeMarks.push(label));
      } else if (what === 15) {
        journal.append({ kind: 'gap', first: next, count: 7, cause: 'lost', at: 0n as MonotonicNanoseconds });
        next += 7;
      } else if (what === 16) void journal.sync();
      else await clock.pass(draw.unit() * 0.2);
      if (draw.chance(0.3)) await settle();
    }
    confirmed = port.dead ? journal.confirmed() : confirmed;
    const after = disk.afterPowerCut(draw);
    const packets = await allOf(readJournal(after, folder));
    const check = checkEncoded(packets);
    must(check.wrong === undefined, `${check.wrong}`);
    const stated = confirmed.sample === 0 ? start : confirmed.sample;
    for (let sample = start; sample < stated; sample++) {
      const there = check.received.has(sample) || check.missing.has(sample);
      must(there, `sample ${sample} was confirmed (up to ${stated}) and is not there`);
    }
    for (const packet of packets) {
      const hurt = packet.kind === 'gap' && packet.cause === 'damaged' && packet.first < stated;
      must(!hurt, `confirmed samples from ${packet.kind === 'gap' ? packet.first : 0} on are damaged`);
    }
    for (const label of safeMarks) must(check.marks.includes(label), `${label} was confirmed and is not there`);
    must(new Set(check.marks).size === check.marks.length, 'a mark is there twice');
    const ours = check.marks.filter((label) => label !== 'station-stood-still');
    must(
      ours.every((label) => asked.includes(label)),
      'a mark that was never set',
    );
    // No sample that was confirmed as received may come back as missing: damage before the confirmed position is a loss.
    for (const report of await recover(after, folder))
      must(!report.confirmedLost, 'a confirmed sample is in a lost frame');
    return { confirmed: stated - start, kept: check.received.size, marks: safeMarks.length };
  },
};
