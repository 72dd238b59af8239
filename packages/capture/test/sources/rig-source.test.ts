import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { Packet, StatusPacket } from '../../src/packets/packet.ts';
import { createRig } from '../../src/sources/rig/create-rig.ts';
import { rigSource } from '../../src/sources/rig/rig-source.ts';
import type { Source } from '../../src/sources/source.ts';
import { isVirtual, virtualDescription } from '../../src/sources/virtual/index.ts';
import { collector } from './collect.ts';
import { of } from './twin-bench.ts';

/** A plate on a line of its own that measures the time, in ms, on a clock moved by hand. */
function plate(id: string, rate: number, begins: number, clock: { now: number }) {
  let emit: ((packet: Packet) => void) | undefined;
  let next = 0;
  const at = () => BigInt(Math.round(clock.now * 1e9)) as MonotonicNanoseconds;
  const source: Source = {
    id,
    async start(to) {
      emit = to;
      to({
        kind: 'header',
        source: id,
        device: `${id}-device`,
        promisedRate: 1000,
        channels: [{ name: 'fz', plate: id, side: 'none', axis: 'z', unit: 'N', scale: 1, offset: 0 }],
        at: at(),
        wallClock: '2026-03-28T09:00:00Z' as UtcInstant,
      });
    },
    async stop() {
      emit?.({ kind: 'end', samples: next, gaps: 0, missing: 0, at: at() });
    },
  };
  const due = () => Math.max(0, Math.floor((clock.now - begins) * rate + 1e-6));
  return {
    source,
    send() {
      const count = due() - next;
      if (count <= 0) return;
      const values = Float64Array.from({ length: count }, (_, i) => 1000 * (begins + (next + i + 1) / rate));
      emit?.({ kind: 'samples', first: next, count, values, at: at() });
      next += count;
    },
    lose() {
      const count = due() - next;
      emit?.({ kind: 'gap', first: next, count, cause: 'disconnected', at: at() });
      next += count;
    },
    say: (state: StatusPacket['state']) => emit?.({ kind: 'status', state, words: 'Something is so.', at: at() }),
    doubled: () => emit?.({ kind: 'fault', fault: 'doubled', count: 1, near: next, at: at() }),
  };
}

async function twoPlates() {
  const clock = { now: 10 };
  const a = plate('left', 1000.2, 10.05, clock);
  const b = plate('right', 999.7, 10.3, clock);
  const got = collector();
  const ports = {
    monotonic: () => BigInt(Math.round(clock.now * 1e9)) as MonotonicNanoseconds,
    wall: () => '2026-03-28T09:00:00Z' as UtcInstant,
  };
  const rig = rigSource('rig', [a.source, b.source], ports);
  await rig.start(got.emit);
  const pass = (seconds: number, of: () => void) => {
    for (const end = clock.now + seconds; clock.now < end; clock.now += 0.01) of();
  };
  const both = () => {
    a.send();
    b.send();
  };
  return { a, b, rig, got, pass, both };
}

/** Rows by grid sample; samples and gaps have to follow each other. */
function rows(packets: readonly Packet[]): (number[] | undefined)[] {
  const out: (number[] | undefined)[] = [];
  for (const packet of packets) {
    if (packet.kind !== 'samples' && packet.kind !== 'gap') continue;
    expect(packet.first).toBe(out.length);
    for (let i = 0; i < packet.count; i++)
      out.push(packet.kind === 'gap' ? undefined : [packet.values[i]!, packet.values[packet.count + i]!]);
  }
  return out;
}

// These plates hand on whole samples every 10 ms, so a receive time says no more than to a sample: rows may differ by two.
describe('a rig of several sources', () => {
  it('is one stream with one header, channels told apart, faults and states handed on, one end', async () => {
    const { a, b, rig, got, pass, both } = await twoPlates();
    pass(4, both);
    b.doubled();
    b.say('quiet');
    pass(1, both);
    await rig.stop();
    const { packets } = got;
    expect(packets[0]).toMatchObject({
      kind: 'header',
      source: 'rig',
      device: 'left-device + right-device',
      promisedRate: 1000,
    });
    expect(of(packets, 'header')[0]!.channels.map(({ name, plate }) => [name, plate])).toEqual([
      ['fz', 'left'],
      ['right fz', 'right'],
    ]);
    expect(of(packets, 'header')).toHaveLength(1);
    const all = rows(packets);
    expect(all.length).toBeGreaterThan(4500);
    for (const row of all) expect(Math.abs(row![0]! - row![1]!)).toBeLessThan(2);
    expect(of(packets, 'fault')).toMatchObject([{ fault: 'doubled', count: 1 }]);
    expect(Math.abs(of(packets, 'fault')[0]!.near - 3700)).toBeLessThan(30);
    expect(of(packets, 'status')[0]).toMatchObject({ state: 'quiet', words: 'right: Something is so.' });
    expect(packets.at(-1)).toMatchObject({ kind: 'end', samples: all.length, gaps: 0, missing: 0 });
    expect(rig.alignments().map(({ source, line }) => [source, line!.residual < 0.01])).toEqual([
      ['left', true],
      ['right', true],
    ]);
    void a;
  });

  it('has a gap where one plate lost samples, with its cause', async () => {
    const { a, b, rig, got, pass, both } = await twoPlates();
    pass(3, both);
    // One cable is out for two seconds: the rig waits one, then says that rows are missing.
    pass(2, () => a.send());
    b.lose();
    pass(3, both);
    await rig.stop();
    const all = rows(got.packets);
    const missing = all.filter((row) => row === undefined).length;
    expect(missing).toBeGreaterThan(1900);
    expect(missing).toBeLessThan(2100);
    expect(of(got.packets, 'gap')).toHaveLength(1);
    expect(of(got.packets, 'gap')[0]!.cause).toBe('disconnected');
    for (const row of all) if (row !== undefined) expect(Math.abs(row[0]! - row[1]!)).toBeLessThan(2);
    expect(got.packets.at(-1)).toMatchObject({ kind: 'end', gaps: 1, missing });
  });

  it('is the source itself when there is only one, and needs one at least', () => {
    const ports = {
      id: 'rig',
      clock: { monotonic: () => 0n as MonotonicNanoseconds, wall: () => '2026-03-28T09:00:00Z' as UtcInstant },
    };
    const one = virtualDescription('One', 'fernwater-three', 1);
    expect(isVirtual(createRig([one], ports))).toBe(true);
    const two = createRig([one, one], ports);
    expect('parts' in two && (two.parts as Source[]).map(({ id }) => id)).toEqual(['rig 1', 'rig 2']);
    expect(() => createRig([], ports)).toThrow(RangeError);
  });
});
